/** What is left, ranked: prior odds, the room that the readings leave, soft evidence apart from measured. */
import type { Suspect } from './diagnosis-types.js';
import { infoOf } from './fault-info.js';
import type { Verdict } from './verdict.js';

/** Prior weight of one more independent fault, against the product of their odds: two at once are rare. */
export const PAIR_WEIGHT = 0.005;
/** A fault that comes and goes against a steady one of the same place (common practice, no source). */
const COMES_AND_GOES = 0.2;
/** So small a part of the severity scale still counts as this much. */
const LEAST_ROOM = 1e-3;

/** Both courses of one hypothesis; at least one of them stands. */
export type Standing = readonly [steady: Verdict, comesAndGoes: Verdict];

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

/** Suspects by falling share; equal ones by name, so that the order never depends on the order of work. */
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
  return suspects.sort(
    (a, b) => b.share - a.share || (a.hypothesis < b.hypothesis ? -1 : a.hypothesis > b.hypothesis ? 1 : 0),
  );
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
    ...(verdict.besides && { besides: verdict.besides.map(infoOf) }),
  };
}
