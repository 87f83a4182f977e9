/**
 * A fault-finding tree: what to test first, and after each answer what next, down to a repair. Made by asking the planner again
 * and again, as if each answer had been given and recorded.
 */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Event, MeterMode, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { hasFailed } from './condition.js';
import type { Suggestion } from './suggestion.js';
import {
  endOf,
  partOf,
  RARE,
  recordedWith,
  situationOf,
  stepFrom,
  type Situation,
  type TreeStep,
} from './tree-step.js';
import type { TreeNode, TreeBranch, TreeLeaf } from './tree-types.js';

/** How far a tree goes. */
export interface TreeSize {
  /** Tests one after the other, at most. */
  readonly depth?: number;
  /** Tests and leaves together, at most; answers under 1 % are not counted. */
  readonly nodes?: number;
}

const USUAL_DEPTH = 12;
/** What about a page holds. */
const USUAL_NODES = 26;

interface Draft {
  readonly at: Situation;
  /** Of all faults, 0 to 1. */
  readonly share: number;
  readonly depth: number;
  test?: Suggestion;
  branches?: readonly (Pick<TreeBranch, 'when' | 'reading' | 'share'> & { readonly draft: Draft })[];
  leaf?: TreeLeaf;
}

/**
 * The tree for what was recorded so far, usually the concern alone; undefined when nothing was found wrong. Every meter counts as
 * proved. The likeliest branches are followed first, so that a limit cuts the rare ones.
 */
export function faultTree(
  bench: Workbench,
  recorded: readonly Recorded[],
  { depth = USUAL_DEPTH, nodes = USUAL_NODES }: TreeSize = {},
): TreeNode | undefined {
  const at = situationOf(bench, recordedWith(recorded, PROOFS));
  if (!hasFailed(bench, foldCase(bench.circuit, at.recorded), at.diagnosis)) return undefined;
  const root: Draft = { at, share: 1, depth: 0 };
  const queue = [root];
  let left = nodes - 1;
  while (queue.length > 0) {
    const draft = queue.shift()!;
    // Two answers are the least a test has.
    const full = draft.depth >= depth || left < 2;
    const step = full
      ? (endOf(draft.at, draft.share) ?? 'not followed')
      : stepFrom(bench, draft.at, draft.share);
    if (typeof step === 'string') draft.leaf = leafOf(draft.at.diagnosis, step);
    else if (frequent(step, draft.share) > left) draft.leaf = leafOf(draft.at.diagnosis, 'not followed');
    else {
      left -= frequent(step, draft.share);
      draft.test = step.test;
      draft.branches = step.answers.map(({ when, reading, chance, then }) => ({
        when,
        reading,
        share: chance,
        draft: { at: then, share: draft.share * chance, depth: draft.depth + 1 },
      }));
      queue.push(...draft.branches.map((branch) => branch.draft));
      queue.sort((a, b) => b.share - a.share);
    }
  }
  return finished(root);
}

/** Answers that take up a node of their own. */
function frequent({ answers }: TreeStep, share: number): number {
  return answers.filter(({ chance }) => share * chance >= RARE).length;
}

const PROOFS: readonly Event[] = (
  ['volts', 'ohms', 'test lamp', 'amps', 'clamp', 'scan'] as const satisfies readonly MeterMode[]
).map((mode) => ({ type: 'proved', mode }));

function leafOf({ groups, paired }: Diagnosis, end: TreeLeaf['end']): TreeLeaf {
  return {
    kind: 'leaf',
    end,
    repairs: paired
      ? []
      : groups.map(({ repair, suspects, share }) => ({
          how: repair.how,
          part: partOf(suspects),
          minutes: repair.minutes,
          price: repair.price,
          share,
          faults: suspects.flatMap(({ faults }) => faults.map(({ id }) => id)),
        })),
  };
}

/** A test whose answers all end at one part is not worth its lines. */
function finished({ at, test, branches, leaf }: Draft): TreeNode {
  if (test === undefined || branches === undefined) return leaf!;
  const done = branches.map(({ draft, ...answer }): TreeBranch => ({ ...answer, node: finished(draft) }));
  const ends = done.map(({ node }) => (node.kind === 'leaf' && isOnePart(node) ? node.repairs[0]!.part : ''));
  if (ends[0] !== '' && ends.every((part) => part === ends[0])) return leafOf(at.diagnosis, 'one part');
  const further = done.reduce(
    (sum, { share, node }) => sum + share * (node.kind === 'test' ? node.minutes : 0),
    0,
  );
  return { kind: 'test', test, minutes: test.minutes + further, branches: done };
}

function isOnePart({ end, repairs }: TreeLeaf): boolean {
  return (end === 'repair' || end === 'one part') && repairs.length > 0;
}
