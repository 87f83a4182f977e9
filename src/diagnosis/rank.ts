/** What is left, ranked: prior odds, the room that the readings leave, soft evidence apart from measured. */
import type { EdgeFits, Suspect } from './diagnosis-types.js';
import { infoOf } from './fault-info.js';
import { canBlow } from './faults.js';
import type { Verdict } from './verdict.js';

/** Prior weight of one more independent fault, against the product of their odds: two at once are rare. */
export const PAIR_WEIGHT = 0.005;
/** A fault that comes and goes against a steady one of the same place (common practice, no source). */
const COMES_AND_GOES = 0.2;
/** So small a part of the severity scale still counts as this much. */
const LEAST_ROOM = 1e-3;

/** Both courses of one hypothesis; at least one of them stands. */
export type Standing = readonly [steady: Verdict, comesAndGoes: Verdict];

/**
 * A suspect that fits a finding only at the far edge of what can be counts for this much less by each that others fit better (our own
 * figure): a true fault reads about as foretold. It rules nothing out.
 */
const AT_EDGE = 0.3;
const MOST_AT_EDGE = 5;

/** The suspects in a new order, each with less weight for the findings that it fits worse than the best of them. */
export function reweigh(suspects: readonly Suspect[], atEdge: ReturnType<EdgeFits>): readonly Suspect[] {
  if (atEdge.every((numbers) => numbers === undefined)) return suspects;
  const least = Math.min(...atEdge.flatMap((numbers) => (numbers === undefined ? [] : [numbers.length])));
  const factors = atEdge.map((numbers) =>
    numbers === undefined ? undefined : AT_EDGE ** Math.min(MOST_AT_EDGE, numbers.length - least),
  );
  const known = sum(suspects.map(({ share }, i) => (factors[i] === undefined ? 0 : share)));
  const kept = sum(suspects.map(({ share }, i) => share * (factors[i] ?? 0)));
  // What was not worked out is as likely to be at an edge as what was.
  const weights = factors.map((factor) => factor ?? kept / (known || 1));
  const all = sum(suspects.map(({ share }, i) => share * weights[i]!)) || 1;
  const measured = sum(suspects.map(({ measuredShare }, i) => measuredShare * weights[i]!)) || 1;
  return suspects
    .map((suspect, i) => ({
      ...suspect,
      ...(factors[i] !== undefined && factors[i] < 1 ? { atEdge: atEdge[i]! } : {}),
      share: (suspect.share * weights[i]!) / all,
      measuredShare: (suspect.measuredShare * weights[i]!) / measured,
    }))
    .sort(byShare);
}

function sum(list: readonly number[]): number {
  return list.reduce((total, one) => total + one, 0);
}

/** Equal ones by name, so that the order never depends on the order of work. */
function byShare(a: Suspect, b: Suspect): number {
  return b.share - a.share || (a.hypothesis < b.hypothesis ? -1 : a.hypothesis > b.hypothesis ? 1 : 0);
}

interface Weighed {
  readonly standing: Standing;
  readonly measured: number;
  readonly all: number;
}

function weigh(verdict: Verdict): { measured: number; all: number } {
  if (verdict.fall !== undefined) return { measured: 0, all: 0 };
  const { faults, besides = [], course, room, soft } = verdict;
  const all = [...faults, ...besides];
  const odds = all.reduce(
    (product, fault) => product * fault.weight,
    PAIR_WEIGHT ** (all.length - 1) * (course === 'steady' ? 1 : COMES_AND_GOES),
  );
  const measured = odds * Math.max(room, LEAST_ROOM);
  return { measured, all: soft.reduce((product, note) => product * note.factor, measured) };
}

/**
 * Together less weight than this (our own figure): they fit in a corner of their scales only, and two usual faults at once are about
 * as likely.
 */
const FAR_FETCHED = 0.05;

/** Does something stand, but only in a way that is less likely than two faults at once? */
export function isFarFetched(standing: readonly Standing[]): boolean {
  return (
    standing.length > 0 && sum(standing.flatMap((both) => both.map((one) => weigh(one).all))) < FAR_FETCHED
  );
}

/** Suspects by falling share. */
export function rank(standing: readonly Standing[]): Suspect[] {
  const weighed = standing.map((both): Weighed => {
    const [steady, loose] = both.map(weigh) as [ReturnType<typeof weigh>, ReturnType<typeof weigh>];
    return {
      standing: both,
      measured: steady.measured + loose.measured,
      all: steady.all + loose.all,
    };
  });
  const measured = weighed.reduce((sum, entry) => sum + entry.measured, 0);
  const all = weighed.reduce((sum, entry) => sum + entry.all, 0);
  const suspects = weighed.map((entry) =>
    toSuspect(entry.standing, entry.measured / (measured || 1), entry.all / (all || 1)),
  );
  return suspects.sort(byShare);
}

/** The course that stands, steady first. */
export function leadingVerdict([steady, loose]: Standing): Verdict {
  return steady.fall === undefined ? steady : loose;
}

function toSuspect(both: Standing, measuredShare: number, share: number): Suspect {
  const [steady, loose] = both;
  const verdict = leadingVerdict(both);
  return {
    hypothesis: verdict.faults.map((fault) => fault.id).join(' + '),
    faults: verdict.faults.map(infoOf),
    share,
    measuredShare,
    soft: verdict.soft,
    severities: verdict.faults.map(() => undefined),
    course:
      steady.fall === undefined && loose.fall === undefined
        ? 'either'
        : steady.fall === undefined
          ? 'steady'
          : 'comes and goes',
    explains: [],
    confirmed: false,
    touched: verdict.touched,
    away: verdict.severity.some(({ low }, i) => Number.isNaN(low) && canBlow(verdict.faults[i]!)),
    ...(verdict.besides && { besides: verdict.besides.map(infoOf) }),
  };
}
