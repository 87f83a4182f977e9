/**
 * Two faults at once. Every pair is judged in the box of both severities; `pair-order.ts` says which come first where the search is
 * limited. A pair with a member that explains everything alone is no explanation of its own and is left out.
 */
import { alone } from './alone.js';
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import { fitBothCourses } from './pair-fit.js';
import type { Limits } from './pair-limits.js';
import type { GroupPair } from './pair-order.js';
import { pairsInOrder } from './pair-order.js';
import { bothCourses, hasFallen } from './hypotheses.js';
import type { Observation } from './observe.js';
import type { Standing } from './rank.js';
import type { Verdict } from './verdict.js';
import type { Workbench } from './workbench.js';

export interface PairSearch {
  readonly standing: readonly Standing[];
  /** Pairs of faults that the search has settled, and all there are. */
  readonly examined: { readonly done: number; readonly of: number };
  /** Pairs that failed on one of the last findings only: seeds of three at once. */
  readonly near: readonly (readonly Fault[])[];
}

const MOST_NEAR = 40;

/**
 * @param faults those that explain nothing alone, or all of them when none does
 * @param most where the search stops and says so
 */
export function judgePairs(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  abnormal: readonly Observation[],
  most: Limits,
): PairSearch {
  const order = new Map(faults.map((fault, i) => [fault, i]));
  const pairs = pairsInOrder(bench, faults, evidence, abnormal);
  const standing: Standing[] = [];
  const near: { faults: readonly Fault[]; step: number }[] = [];
  let done = 0;
  for (const { pair, both } of judged(bench, pairs, evidence, most)) {
    const { a, b } = pair;
    const [steady, loose] = both;
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
  }
  near.sort((x, y) => y.step - x.step);
  const of = pairs.reduce((sum, { a, b }) => sum + a.length * b.length, 0);
  return {
    standing,
    examined: { done, of },
    near: near.slice(0, MOST_NEAR).map(({ faults }) => faults),
  };
}

interface Judged {
  readonly pair: GroupPair;
  readonly both: Standing;
}

/**
 * A pair stands as soon as two severities are found at which everything fits: a few likely ones are tried before the whole box is
 * searched. It falls only by the whole box. Where the search is limited, the boxes searched are those of the pairs that got furthest
 * at the likely severities and of the first in order; then those of pairs like one that stands. The others are left unjudged.
 */
function* judged(
  bench: Workbench,
  pairs: readonly GroupPair[],
  evidence: Evidence,
  { pairs: most, boxes }: Limits,
): Generator<Judged> {
  const open: { pair: GroupPair; faults: readonly Fault[]; reached: number }[] = [];
  const stood = new Set<string>();
  const boxed = (pair: GroupPair, faults: readonly Fault[]): Judged => ({
    pair,
    both: bothCourses(bench, faults, evidence),
  });
  const kept = (done: Judged): Judged => {
    if (stands(done)) for (const trait of traitsOf(done.pair)) stood.add(trait);
    return done;
  };
  for (const pair of pairs.slice(0, most)) {
    const faults = [pair.a[0]!, pair.b[0]!];
    // What has fallen needs no try, unless the tries decide whose turn it is.
    const fit =
      boxes === Infinity && hasFallen(bench, faults, evidence)
        ? { reached: 0 }
        : fitBothCourses(bench, faults, evidence, pair.severities);
    if (fit.both !== undefined) yield kept({ pair, both: fit.both });
    else if (boxes === Infinity) yield boxed(pair, faults);
    else open.push({ pair, faults, reached: fit.reached });
  }
  const first = open.slice(0, boxes >> 1);
  const furthest = [...open].sort((x, y) => y.reached - x.reached).filter((one) => !first.includes(one));
  const searched = new Set([...furthest.slice(0, boxes - first.length), ...first]);
  for (const { pair, faults } of searched) yield kept(boxed(pair, faults));
  if (boxes === Infinity) return;
  const left = [...open.filter((one) => !searched.has(one)).map(({ pair }) => pair), ...pairs.slice(most)];
  const alike = left.filter((pair) => traitsOf(pair).some((trait) => stood.has(trait)));
  for (const pair of alike.slice(0, MOST_LIKE)) yield boxed(pair, [pair.a[0]!, pair.b[0]!]);
}

function stands({ both }: Judged): boolean {
  return both.some(({ fall }) => fall === undefined);
}

/** Pairs judged, where the search is limited, only because one like them stands. */
const MOST_LIKE = 16;

/**
 * Pairs with a trait in common are alike: one of the two is the same, and the others explain the same findings alone. What could take
 * the place of a joint is the wire to it.
 */
function traitsOf({ a, b, explains: [byA, byB] }: GroupPair): readonly string[] {
  return [`${a[0]!.id}, ${byB.join()}`, `${b[0]!.id}, ${byA.join()}`];
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
      .filter((third) => alone(bench, third, evidence, [fall.observation]).explains.length > 0)
      .slice(0, MOST_THIRDS);
    for (const third of thirds) {
      if (tried++ >= most) return standing;
      const both = bothCourses(bench, [...pair, third], evidence);
      if (both.some((verdict) => verdict.fall === undefined)) standing.push(both);
    }
  }
  return standing;
}
