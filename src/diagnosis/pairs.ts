/**
 * Two faults at once. Every pair is judged in the box of both severities; set covers only give the order: a pair whose members each
 * explain some of the abnormal findings comes first. They never exclude, since two faults can read as neither does alone.
 * A pair with a member that explains everything alone is no explanation of its own and is left out.
 */
import { alikeFaults, parts } from './alike-faults.js';
import { irredundantCovers } from './covers/covers.js';
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import { hypothesisId } from './fault-info.js';
import { bothCourses, hasFallen } from './hypotheses.js';
import type { Observation } from './observe.js';
import type { Standing } from './rank.js';
import { restrict } from './restrict.js';
import { FIXED } from './severity.js';
import type { Verdict } from './verdict.js';
import { begin, judge } from './verdict.js';
import { isEmpty } from './alive.js';
import type { Workbench } from './workbench.js';

export interface PairSearch {
  readonly standing: readonly Standing[];
  /** Pairs of faults that the search has settled, and all there are. */
  readonly examined: { readonly done: number; readonly of: number };
  /** Pairs that failed on one of the last findings only: seeds of three at once. */
  readonly near: readonly (readonly Fault[])[];
}

interface Candidate {
  readonly a: readonly Fault[];
  readonly b: readonly Fault[];
  readonly covers: boolean;
  readonly weight: number;
}

/** Covers that put pairs in front; more would only reorder. */
const MOST_COVERS = 400;
const MOST_NEAR = 40;

/**
 * @param faults those that explain nothing alone, or all of them when none does
 * @param most groups of pairs to judge before the search stops and says so
 */
export function judgePairs(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  abnormal: readonly Observation[],
  most: number,
): PairSearch {
  const order = new Map(faults.map((fault, i) => [fault, i]));
  const groups = alikeFaults(bench, faults, evidence);
  const alone = groups.map((group) => explainedAlone(bench, group[0]!, evidence, abnormal));
  const covering = new Set(
    irredundantCovers(abnormal.length, alone, 2, MOST_COVERS).covers.map((cover) => cover.join()),
  );
  const weights = groups.map((group) => group.reduce((sum, fault) => sum + fault.weight, 0));
  const pairs: Candidate[] = [];
  groups.forEach((a, i) => {
    groups.forEach((b, j) => {
      if (j <= i) return;
      const covers = covering.has(`${i},${j}`) || covering.has(`${i}`) || covering.has(`${j}`);
      // A fault that attaches something inside a run parts what is otherwise alike.
      const manyA = parts(bench, b[0]!, a) ? a.map((fault) => [fault]) : [a];
      const manyB = parts(bench, a[0]!, b) ? b.map((fault) => [fault]) : [b];
      for (const first of manyA)
        for (const second of manyB)
          if (first[0]!.site !== second[0]!.site)
            pairs.push({ a: first, b: second, covers, weight: weights[i]! * weights[j]! });
    });
  });
  pairs.sort((x, y) => Number(y.covers) - Number(x.covers) || y.weight - x.weight);
  const standing: Standing[] = [];
  const near: { faults: readonly Fault[]; step: number }[] = [];
  let done = 0;
  pairs.slice(0, most).forEach(({ a, b }) => {
    const [steady, loose] = judgePair(bench, [a[0]!, b[0]!], evidence);
    done += a.length * b.length;
    if (steady.fall === undefined || loose.fall === undefined) {
      for (const first of a)
        for (const second of b) {
          // A pair has one name, whichever of its groups came first.
          const turned = order.get(first)! > order.get(second)!;
          const faults = turned ? [second, first] : [first, second];
          const named = (verdict: Verdict): Verdict => ({
            ...verdict,
            faults,
            severity: turned ? [...verdict.severity].reverse() : verdict.severity,
          });
          standing.push([named(steady), named(loose)]);
        }
    } else near.push({ faults: [a[0]!, b[0]!], step: loose.fall.observation.finding });
  });
  near.sort((x, y) => y.step - x.step);
  const of = pairs.reduce((sum, { a, b }) => sum + a.length * b.length, 0);
  return {
    standing,
    examined: { done, of },
    near: near.slice(0, MOST_NEAR).map(({ faults }) => faults),
  };
}

/**
 * A pair stands as soon as two severities are found at which everything fits: a few likely ones are tried before the whole box is
 * searched. It falls only by the whole box.
 */
function judgePair(bench: Workbench, faults: readonly Fault[], evidence: Evidence): Standing {
  const tried = hasFallen(bench, faults, evidence) ? [] : severitiesToTry(bench, faults);
  for (const [a, b] of tried) {
    const verdict = judge(bench, [held(faults[0]!, a), held(faults[1]!, b)], evidence);
    if (verdict.fall !== undefined) continue;
    lastFits(bench).set(hypothesisId(faults), [a, b]);
    const steady: Verdict = { ...verdict, faults, room: PAIR_ROOM, severity: [] };
    return [steady, { ...steady, course: 'comes and goes' }];
  }
  const [steady, loose] = bothCourses(bench, faults, evidence);
  return [
    { ...steady, room: PAIR_ROOM },
    { ...loose, room: PAIR_ROOM },
  ];
}

type Severities = readonly [a: number, b: number];

const fitted = new WeakMap<Workbench, Map<string, Severities>>();

/** Severities at which a pair fitted when it was judged last: it mostly fits there again. */
function lastFits(bench: Workbench): Map<string, Severities> {
  let memory = fitted.get(bench);
  if (memory === undefined) fitted.set(bench, (memory = new Map()));
  return memory;
}

function severitiesToTry(bench: Workbench, [a, b]: readonly Fault[]): readonly Severities[] {
  const all = likelySeverities(a!).flatMap((first) =>
    likelySeverities(b!).map((second): Severities => [first, second]),
  );
  const last = lastFits(bench).get(hypothesisId([a!, b!]));
  if (last === undefined) return all;
  return [last, ...all.filter(([first, second]) => first !== last[0] || second !== last[1])];
}

/** Pairs are ranked without regard to how much of their box fits. */
const PAIR_ROOM = 1;

/** An open circuit or a dead short first, then a few ohms. */
function likelySeverities({ scale, apply }: Fault): readonly number[] {
  const { edges, unit } = scale;
  if (unit === 'none') return [edges[0]!];
  if (unit !== 'ohm') return [edges[edges.length >> 1]!, edges[0]!];
  return apply(1).kind === 'series' ? [edges.at(-1)!, 3] : [0.01, 3];
}

/** The fault at one severity only. */
function held(fault: Fault, severity: number): Fault {
  return { ...fault, scale: FIXED, apply: () => fault.apply(severity) };
}

/** Which abnormal findings the fault explains when they are taken one by one. */
export function explainedAlone(
  bench: Workbench,
  fault: Fault,
  evidence: Evidence,
  abnormal: readonly Observation[],
): number[] {
  const { alive, grid } = begin([fault], evidence, 'steady');
  return abnormal.flatMap((observation, i) =>
    isEmpty(restrict(bench, alive, grid, observation)) ? [] : [i],
  );
}

/** Third faults tried with each near pair. */
const MOST_THIRDS = 12;

/**
 * Three faults at once, grown from pairs that nearly fit: a third that explains what felled the pair. Never all there are.
 * @param most hypotheses to judge
 */
export function judgeTriples(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  near: PairSearch['near'],
  most: number,
): Standing[] {
  const likely = [...faults].sort((a, b) => b.weight - a.weight);
  const standing: Standing[] = [];
  let tried = 0;
  for (const pair of near) {
    const fall = bothCourses(bench, pair, evidence)[0].fall;
    if (fall === undefined) continue;
    const thirds = likely
      .filter((third) => pair.every((fault) => fault.site !== third.site))
      .filter((third) => explainedAlone(bench, third, evidence, [fall.observation]).length > 0)
      .slice(0, MOST_THIRDS);
    for (const third of thirds) {
      if (tried++ >= most) return standing;
      const both = bothCourses(bench, [...pair, third], evidence);
      if (both.some((verdict) => verdict.fall === undefined)) standing.push(both);
    }
  }
  return standing;
}
