/** Trees are walked by simulated vehicles: whatever is wrong with one must stand at the end it comes to. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Fault } from '../../src/diagnosis/faults.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { random } from '../../src/exercise/random.js';
import { SimulatedCar } from '../../src/exercise/simulated-car.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import { faultTree } from '../../src/planning/tree.js';
import type { TreeLeaf, TreeNode, TreeTest } from '../../src/planning/tree-types.js';
import { edit } from '../../src/session/actions.js';
import type { Reading } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { atRest } from '../../src/session/setup.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

const CONCERN = 'fails H1 when key on, gear reverse';
const UNTIL = 60_000;

let bench: Workbench;
let tree: TreeNode;
beforeAll(async () => {
  bench = await workbenchOf('reversing-lamps');
  tree = faultTree(bench, recordedOf(bench, [CONCERN]))!;
}, UNTIL);

function testsOf(node: TreeNode): TreeTest[] {
  return node.kind === 'leaf' ? [] : [node, ...node.branches.flatMap((branch) => testsOf(branch.node))];
}

function leavesOf(node: TreeNode, share = 1): { leaf: TreeLeaf; share: number }[] {
  return node.kind === 'leaf'
    ? [{ leaf: node, share }]
    : node.branches.flatMap((branch) => leavesOf(branch.node, share * branch.share));
}

function deepest(node: TreeNode): number {
  return node.kind === 'leaf' ? 0 : 1 + Math.max(...node.branches.map((branch) => deepest(branch.node)));
}

/** Does the answer of a vehicle belong to a branch? */
function belongs(answer: Reading, branch: Reading): boolean {
  if (!('value' in answer) || !('value' in branch)) return false;
  const figure = typeof answer.value === 'object' ? answer.value.value : undefined;
  if (typeof branch.value !== 'object') return branch.value === answer.value;
  if (figure === undefined) return answer.value === 'OL' && branch.value.value + branch.value.step > 1e9;
  return Math.abs(figure - branch.value.value) <= branch.value.step;
}

/** Where a vehicle with this fault ends; a word when it has another complaint, or the tree no answer that fits. */
async function walk(
  fault: Fault,
  severity: number,
  seed: number,
): Promise<TreeLeaf | 'other complaint' | 'no answer'> {
  const hidden = [{ fault, severity, comesAndGoes: false }];
  const car = new SimulatedCar(bench, new SolverPhysics(), random(seed), hidden, false);
  let setUp = atRest(bench.circuit);
  const concern = recordedOf(bench, [CONCERN]);
  for (const { event } of concern) {
    if (event.type !== 'found') continue;
    for (const [control, position] of event.when ?? []) {
      setUp = edit({ do: 'operate', control, position }, setUp);
      await car.act({ do: 'operate', control, position }, setUp);
    }
    const answer = await car.answer(setUp, event.reading);
    if (answer === undefined || !belongs(answer.reading, event.reading)) return 'other complaint';
  }
  setUp = foldCase(bench.circuit, concern).now;
  let node: TreeNode = tree;
  while (node.kind === 'test') {
    for (const action of node.test.actions) {
      setUp = edit(action, setUp);
      await car.act(action, setUp);
    }
    const answer = await car.answer(setUp, node.test.reading);
    const branch: { node: TreeNode } | undefined =
      answer && node.branches.find(({ reading }) => belongs(answer.reading, reading));
    if (branch === undefined) return 'no answer';
    node = branch.node;
  }
  return node;
}

test(
  'when any one fault of the vehicle gives the concern then the tree ends in a leaf that holds it',
  async () => {
    const missed: string[] = [];
    const count = { ended: 0, other: 0, none: 0 };
    let seed = 1;
    for (const fault of bench.faults) {
      const { edges } = fault.scale;
      for (const severity of new Set([edges[0]!, edges[Math.floor(edges.length * 0.7)]!, edges.at(-1)!])) {
        seed += 1;
        const end = await walk(fault, severity, seed);
        if (end === 'other complaint') count.other += 1;
        else if (end === 'no answer') {
          count.none += 1;
          missed.push(`${fault.id} ${severity} no answer`);
        } else {
          count.ended += 1;
          if (!end.repairs.some(({ faults }) => faults.includes(fault.id)))
            missed.push(`${fault.id} ${severity} ${end.end}`);
        }
      }
    }
    expect(missed).toEqual([]);
    expect(count.ended).toBeGreaterThan(50);
  },
  UNTIL,
);

test('when shares are added up then those of each test and those of all leaves make the whole', () => {
  for (const { branches } of testsOf(tree)) {
    expect(branches.length).toBeGreaterThan(1);
    expect(branches.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  }
  expect(leavesOf(tree).reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  for (const { leaf } of leavesOf(tree))
    if (leaf.end !== 'not in this drawing')
      expect(leaf.repairs.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 6);
});

test('when minutes are added up then those of a test are its own and those to be expected after it', () => {
  for (const node of testsOf(tree)) {
    const further = node.branches.map(({ share, node: next }) =>
      next.kind === 'test' ? share * next.minutes : 0,
    );
    expect(node.minutes).toBeCloseTo(node.test.minutes + further.reduce((sum, one) => sum + one, 0), 9);
  }
});

test(
  'when the tree is made again then it is the same, and on a fresh workbench too',
  async () => {
    expect(faultTree(bench, recordedOf(bench, [CONCERN]))).toEqual(tree);
    const fresh = await workbenchOf('reversing-lamps');
    expect(faultTree(fresh, recordedOf(fresh, [CONCERN]))).toEqual(tree);
  },
  UNTIL,
);

test('when a glance at another load tells something then it comes before any tool', () => {
  for (const node of testsOf(tree)) {
    if (node.test.reading.kind === 'load') continue;
    const after = node.branches.flatMap(({ node: next }) =>
      next.kind === 'test' ? [next.test.reading.kind] : [],
    );
    expect(after).not.toContain('load');
  }
  expect(tree.kind === 'test' && tree.test.reading.kind).toBe('load');
});

describe('the size of a tree', () => {
  test('when a depth is given then no way has more tests', () => {
    for (const depth of [1, 2]) {
      const small = faultTree(bench, recordedOf(bench, [CONCERN]), { depth })!;
      expect(deepest(small)).toBe(depth);
      expect(leavesOf(small).reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
    }
  });

  test('when nodes are given then there are no more, answers under 1 % left out', () => {
    const small = faultTree(bench, recordedOf(bench, [CONCERN]), { nodes: 9 })!;
    const frequent = leavesOf(small).filter(({ share }) => share >= 0.01);
    expect(testsOf(small).length + frequent.length).toBeLessThanOrEqual(9);
    expect(testsOf(small).length).toBeGreaterThan(1);
  });

  test('when a branch is rare then nothing more is planned on it', () => {
    const shareOfTests = (node: TreeNode, share: number): number[] =>
      node.kind === 'leaf'
        ? []
        : [share, ...node.branches.flatMap((one) => shareOfTests(one.node, share * one.share))];
    expect(Math.min(...shareOfTests(tree, 1))).toBeGreaterThanOrEqual(0.01);
  });
});

test('when nothing was found wrong then there is no tree', () => {
  expect(faultTree(bench, recordedOf(bench, ['works H1 H2 when key on, gear reverse']))).toBeUndefined();
  expect(faultTree(bench, [])).toBeUndefined();
});

test(
  'when the concern is not out of order beyond doubt then a glance comes first and the tree goes on',
  async () => {
    const module = await workbenchOf('daytime-module');
    const grown = faultTree(module, recordedOf(module, ['fails H1 when key on, lights off']), { nodes: 9 })!;
    expect(testsOf(grown).length).toBeGreaterThan(1);
    expect(grown.kind === 'test' && grown.test.reading.kind).toBe('load');
  },
  UNTIL,
);
