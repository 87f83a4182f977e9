/**
 * One step at a time: the test with the most bits about the repair per minute, unless trying repairs in the best order is the shorter
 * road. The plain way to plan; its minutes can be far from best (Garey & Graham 1974), most of all where a place is dear to open and
 * many tests wait there. So what the roll-out supposes one would do after the step it weighs is the better of two rules, the other
 * counting places as open when it chooses a test (their minutes are counted all the same).
 */
import { entropyOf } from './bound.js';
import { tryingOf } from './order.js';
import type { Prepared } from './prepared.js';
import type { State } from './state.js';
import {
  afterWrong,
  branchesOf,
  keyOf,
  minutesOfTest,
  openingForRepair,
  repairWeights,
  settled,
  tells,
} from './state.js';

/** A test by its number within the prepared problem, or a repair r as -1 - r. */
export type Move = number;

/** Less than any step takes: a test that costs nothing is still one step. */
const LEAST_MINUTES = 1e-3;
/** Bits that are rounding only. */
const NO_BITS = 1e-9;

export class Greedy {
  /** States valued so far. */
  valued = 0;
  private readonly known = new Map<string, number>();
  private readonly meter: BitMeter;

  /**
   * @param plain only the first of the two rules
   * @param mostStates after so many states no test is supposed any more in those met first then, only trying
   */
  constructor(
    private readonly prepared: Prepared,
    private readonly plain = false,
    private readonly mostStates = Infinity,
  ) {
    this.meter = new BitMeter(prepared);
  }

  /** Expected minutes from here on when every step is chosen this way. */
  minutes(state: State): number {
    const { prepared } = this;
    const { who } = state;
    if (settled(prepared, state)) return openingForRepair(prepared, prepared.repairOf[who[0]!]!, state.open);
    const key = keyOf(prepared, state);
    let minutes = this.known.get(key);
    if (minutes === undefined) {
      this.valued++;
      const trying = tryingOf(prepared, state);
      minutes = trying.minutes;
      const tests = this.valued > this.mostStates ? [] : this.bestTests(state);
      for (const test of tests) minutes = Math.min(minutes, this.minutesOf(state, test));
      this.known.set(key, minutes);
    }
    return minutes;
  }

  /** Expected minutes of doing this first and going on this way. */
  minutesOf(state: State, move: Move): number {
    return minutesVia(this.prepared, state, move, (next) => this.minutes(next));
  }

  /** The tests of both rules; none when none tells anything about the repair. */
  private bestTests(state: State): Move[] {
    const { prepared, meter } = this;
    const before = entropyOf(repairWeights(prepared, state));
    let [best, most] = [-1, 0];
    let [bestOpened, mostOpened] = [-1, 0];
    for (let test = 0; test < prepared.tests.length; test++) {
      if (!tells(prepared, test, state)) continue;
      const bits = before - meter.left(test, state);
      if (bits < NO_BITS) continue;
      const rate = bits / Math.max(LEAST_MINUTES, minutesOfTest(prepared, test, state));
      const opened = bits / Math.max(LEAST_MINUTES, prepared.tests[test]!.minutes);
      if (rate > most) [best, most] = [test, rate];
      if (opened > mostOpened) [bestOpened, mostOpened] = [test, opened];
    }
    if (best < 0) return [];
    return this.plain || best === bestOpened ? [best] : [best, bestOpened];
  }
}

/** Expected minutes of a step and what follows it. */
export function minutesVia(
  prepared: Prepared,
  state: State,
  move: Move,
  follow: (next: State) => number,
): number {
  const own = ownMinutes(prepared, state, move);
  if (move < 0) {
    const wrong = afterWrong(prepared, -1 - move, state);
    return own + (wrong.state.who.length === 0 ? 0 : wrong.chance * follow(wrong.state));
  }
  return branchesOf(prepared, move, state).reduce(
    (sum, { chance, state: next }) => sum + chance * follow(next),
    own,
  );
}

/** Expected minutes of a step itself: those of a repair by the probability that it is the wrong one. */
export function ownMinutes(prepared: Prepared, state: State, move: Move): number {
  if (move >= 0) return minutesOfTest(prepared, move, state);
  const { repairs, repairOf } = prepared;
  let wrong = 0;
  for (let k = 0; k < state.who.length; k++)
    if (repairOf[state.who[k]!] !== -1 - move) wrong += state.weights[k]!;
  return openingForRepair(prepared, -1 - move, state.open) + wrong * repairs[-1 - move]!.minutes;
}

/** Every step that tells something, tests first. */
export function movesOf(prepared: Prepared, state: State): Move[] {
  const moves: Move[] = [];
  for (let test = 0; test < prepared.tests.length; test++) if (tells(prepared, test, state)) moves.push(test);
  repairWeights(prepared, state).forEach((weight, repair) => {
    if (weight > 0) moves.push(-1 - repair);
  });
  return moves;
}

/** Bits about the repair that a test is expected to leave open; its table is used again for every test. */
class BitMeter {
  private readonly table: Float64Array;
  private readonly totals: Float64Array;

  constructor(private readonly prepared: Prepared) {
    const classes = Math.max(1, ...prepared.tests.map(({ classCount }) => classCount));
    this.table = new Float64Array(classes * prepared.repairs.length);
    this.totals = new Float64Array(classes);
  }

  left(test: number, state: State): number {
    const { table, totals, prepared } = this;
    const { start, classes, chances, classCount } = prepared.tests[test]!;
    const count = prepared.repairs.length;
    const { who, weights } = state;
    table.fill(0, 0, classCount * count);
    totals.fill(0, 0, classCount);
    for (let k = 0; k < who.length; k++) {
      const repair = prepared.repairOf[who[k]!]!;
      for (let e = start[who[k]!]!; e < start[who[k]! + 1]!; e++) {
        const weight = weights[k]! * chances[e]!;
        table[classes[e]! * count + repair]! += weight;
        totals[classes[e]!]! += weight;
      }
    }
    let left = 0;
    for (let i = 0; i < classCount * count; i++) if (table[i]! > 0) left -= table[i]! * Math.log2(table[i]!);
    for (let c = 0; c < classCount; c++) if (totals[c]! > 0) left += totals[c]! * Math.log2(totals[c]!);
    return left;
  }
}
