/**
 * The order in which pairs of faults are looked at. At each moment of a session a pair comes forward whose members each explain
 * some of the abnormal findings until then: the set covers first, and the more findings one of the two explains the sooner. What
 * came forward at any moment stays in front, because two faults can read as neither does alone. Order only; nothing is ruled out.
 */
import { alone } from './alone.js';
import { alikeFaults, parts } from './alike-faults.js';
import { irredundantCovers } from './covers/covers.js';
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import type { Observation } from './observe.js';
import type { Workbench } from './workbench.js';

/** Two groups of faults that act alike: one of each is judged for all. */
export interface GroupPair {
  readonly a: readonly Fault[];
  readonly b: readonly Fault[];
  /** Severities of either that are worth trying. */
  readonly severities: readonly [a: readonly number[], b: readonly number[]];
  /** Abnormal findings that either explains alone. */
  readonly explains: readonly [a: readonly number[], b: readonly number[]];
}

/** Covers that put pairs in front; more would only reorder. */
const MOST_COVERS = 5000;
/** Orders kept, one for each abnormal finding of a session; beyond these the memory starts anew. */
const MOST_KEPT = 120;

/** Every pair of groups, those to be looked at first in front. `abnormal`: of the evidence, in its order. */
export function pairsInOrder(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  abnormal: readonly Observation[],
): GroupPair[] {
  const groups = alikeFaults(bench, faults, evidence);
  const normal = evidence.steps.flatMap((step) =>
    step.kind === 'observation' && !abnormal.includes(step.observation) ? [step.observation] : [],
  );
  const known = groups.map((group) => alone(bench, group[0]!, evidence, abnormal, normal));
  const moments = momentsOf(evidence, abnormal).map((moment) => orderAt(bench, faults, moment));
  const found: { readonly pair: GroupPair; readonly ranks: readonly number[] }[] = [];
  groups.forEach((a, i) => {
    groups.forEach((b, j) => {
      if (j <= i) return;
      const ranks = moments.map(({ ranks, groupOf, size }) => {
        const [x, y] = [groupOf.get(a[0]!)!, groupOf.get(b[0]!)!];
        return ranks[x < y ? x * size + y : y * size + x]!;
      });
      // A fault that attaches something inside a run parts what is otherwise alike.
      const manyA = parts(bench, b[0]!, a) ? a.map((fault) => [fault]) : [a];
      const manyB = parts(bench, a[0]!, b) ? b.map((fault) => [fault]) : [b];
      for (const first of manyA)
        for (const second of manyB)
          if (first[0]!.site !== second[0]!.site)
            found.push({
              pair: {
                a: first,
                b: second,
                severities: [known[i]!.severities, known[j]!.severities],
                explains: [known[i]!.explains, known[j]!.explains],
              },
              ranks,
            });
    });
  });
  const best = new Map(found.map((one) => [one, Math.min(...one.ranks)]));
  found.sort((x, y) => best.get(x)! - best.get(y)! || x.ranks.at(-1)! - y.ranks.at(-1)!);
  return found.map(({ pair }) => pair);
}

/** A session as it stood after one of its abnormal findings, or as it stands. */
interface Moment {
  readonly evidence: Evidence;
  readonly abnormal: readonly Observation[];
}

function momentsOf(evidence: Evidence, abnormal: readonly Observation[]): Moment[] {
  const { steps, prefixes } = evidence;
  return abnormal.map((last, i) => {
    const end = steps.findIndex((step) => step.kind === 'observation' && step.observation === last) + 1;
    return {
      evidence: { ...evidence, steps: steps.slice(0, end), prefixes: prefixes.slice(0, end + 1) },
      abnormal: abnormal.slice(0, i + 1),
    };
  });
}

interface Order {
  readonly groupOf: ReadonlyMap<Fault, number>;
  readonly size: number;
  /** Place in the order, by `first group × size + second group`. */
  readonly ranks: Int32Array;
}

const memory = new WeakMap<Workbench, Map<string, Order>>();

function orderAt(bench: Workbench, faults: readonly Fault[], moment: Moment): Order {
  let kept = memory.get(bench);
  if (kept === undefined || kept.size > MOST_KEPT) memory.set(bench, (kept = new Map()));
  const key = `${moment.evidence.prefixes.at(-1)!} ${faults.map(({ id }) => id).join()}`;
  let order = kept.get(key);
  if (order === undefined) kept.set(key, (order = ordered(bench, faults, moment)));
  return order;
}

function ordered(bench: Workbench, faults: readonly Fault[], { evidence, abnormal }: Moment): Order {
  const groups = alikeFaults(bench, faults, evidence);
  const known = groups.map((group) => alone(bench, group[0]!, evidence, abnormal).explains);
  const { covers } = irredundantCovers(abnormal.length, known, 2, MOST_COVERS);
  const covering = new Set(covers.map((cover) => cover.join()));
  const weights = groups.map((group) => group.reduce((sum, fault) => sum + fault.weight, 0));
  const size = groups.length;
  const places: { at: number; covers: boolean; explains: number; weight: number }[] = [];
  for (let i = 0; i < size; i++)
    for (let j = i + 1; j < size; j++)
      places.push({
        at: i * size + j,
        covers: covering.has(`${i},${j}`) || covering.has(`${i}`) || covering.has(`${j}`),
        explains: new Set([...known[i]!, ...known[j]!]).size,
        weight: weights[i]! * weights[j]!,
      });
  places.sort(
    (x, y) => Number(y.covers) - Number(x.covers) || y.explains - x.explains || y.weight - x.weight,
  );
  // Two that were alike then come last: together they explained no more than one.
  const ranks = new Int32Array(size * size).fill(size * size);
  places.forEach(({ at }, rank) => (ranks[at] = rank));
  const groupOf = new Map(groups.flatMap((group, i) => group.map((fault) => [fault, i] as const)));
  return { groupOf, size, ranks };
}
