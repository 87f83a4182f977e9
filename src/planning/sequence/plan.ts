/**
 * The next step on the cheapest road to the right repair: exact where the states are few enough, otherwise by roll-out.
 *
 * Minutes counted: tests, openings, wrong repairs with their repeats of the failed condition, and opening the place of the right
 * repair. The right repair itself is not, for it is the same on every road.
 */
import type { Valued } from './exact.js';
import { Exact } from './exact.js';
import type { Move } from './greedy.js';
import { Greedy } from './greedy.js';
import type { Prepared } from './prepared.js';
import { prepare } from './prepared.js';
import type { Knowledge, Problem, Step } from './problem.js';
import { RollOut } from './roll-out.js';
import { openingForRepair, settled, startOf } from './state.js';

/** Bounds of the work, not of the time, so that the same question gets the same answer everywhere. */
export interface Limits {
  /** States looked into for the exact answer before it is given up; 0: not even begun. */
  readonly exactStates: number;
  /** States valued by roll-out before no deeper look is begun; 0: one step ahead only. */
  readonly rollOutStates: number;
  /** Next best steps wanted, with the minutes of roads by roll-out; undefined: two, exact where the best one is. */
  readonly runnersUp?: number;
}

/** Tens of milliseconds on a problem of ten repairs, about a tenth of a second on one of twenty, a second on sixty (2 cores). */
export const USUAL_LIMITS: Limits = { exactStates: 400, rollOutStates: 1500 };

export interface PlannedStep {
  readonly step: Step;
  /** Expected minutes to the right repair when this is done next. */
  readonly expectedMinutes: number;
}

export interface Plan extends PlannedStep {
  /**
   * 'exact': no road is shorter by more than a hundredth of a minute. 'roll-out': a road of so many minutes is known, and replanning after each step may shorten it.
   */
  readonly mode: 'exact' | 'roll-out';
  /** The next best steps, best first, at most two if nothing else is asked for; where the work ran out before they were exact, their minutes are at most so many. */
  readonly runnersUp: readonly PlannedStep[];
}

const RUNNERS_UP = 2;
/** Expected minutes nobody would notice. */
const SLACK = 0.01;

/**
 * The next step. A test is one that tells something and is not done already; a repair is either the only one left or a try.
 * @throws RangeError when the knowledge does not belong to the problem, or nothing is left
 */
export function plan(problem: Problem, knowledge: Knowledge, limits: Limits = USUAL_LIMITS): Plan {
  const prepared = prepare(problem, knowledge);
  const start = startOf(prepared, knowledge.open);
  if (settled(prepared, start)) {
    const expectedMinutes = openingForRepair(prepared, 0, start.open);
    return { step: stepOf(prepared, -1), expectedMinutes, mode: 'exact', runnersUp: [] };
  }
  const rolled = new RollOut(prepared, limits.rollOutStates).best(start);
  const { exactStates, runnersUp } = limits;
  if (exactStates === 0) return planOf(prepared, rolled, 'roll-out', runnersUp);
  const exact = new Exact(prepared, exactStates, SLACK);
  const found = exact.best(start, 1, rolled[0]!.minutes);
  if (found === undefined) return planOf(prepared, rolled, 'roll-out', runnersUp);
  // None found: no road is shorter than that of the roll-out by more than the slack.
  const best = found[0] ?? rolled[0]!;
  const budget = rolled[Math.min(RUNNERS_UP, rolled.length - 1)]!.minutes;
  const next = runnersUp === undefined ? (exact.best(start, 1 + RUNNERS_UP, budget) ?? rolled) : rolled;
  return planOf(prepared, [best, ...next.filter(({ move }) => move !== best.move)], 'exact', runnersUp);
}

/**
 * Minutes of a known road that begins with this test, planned plainly after it; undefined where it tells nothing.
 * @throws RangeError as `plan`
 */
export function minutesBy(problem: Problem, knowledge: Knowledge, test: number): number | undefined {
  const prepared = prepare(problem, knowledge);
  const move = prepared.tests.findIndex(({ number }) => number === test);
  if (move < 0) return undefined;
  return new Greedy(prepared, true).minutesOf(startOf(prepared, knowledge.open), move);
}

function planOf(
  prepared: Prepared,
  valued: readonly Valued[],
  mode: Plan['mode'],
  wanted = RUNNERS_UP,
): Plan {
  const [best, ...others] = valued.map(({ move, minutes }) => ({
    step: stepOf(prepared, move),
    expectedMinutes: minutes,
  }));
  return { ...best!, mode, runnersUp: others.slice(0, wanted) };
}

function stepOf({ tests, repairs }: Prepared, move: Move): Step {
  return move < 0 ? { repair: repairs[-1 - move]!.number } : { test: tests[move]!.number };
}
