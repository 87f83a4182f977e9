/**
 * What the rest of a search for the right repair costs at the very least. Never too much, so that what cannot be best is left out of
 * the search without harm:
 * - the place of the right repair is opened in any case, the place of a test on all ways that do it;
 * - one more step is needed;
 * - every bit about the repair must come from somewhere (Pattipati & Alexandridis 1990 bound by entropy too; prices are ours). Put a
 *   price, in minutes, on a bit; bits times price less all that steps can earn is a bound, whatever the price:
 *   A test is done once on any way. Of a possibility it earns no more than price x D - minutes, D being how far what the possibility
 *   shows is from a mixture Q of outcomes (relative entropy, in bits), whatever Q.
 *   A repair of probability p, wrong with probability x when it is tried, gives no more bits than
 *   x log2((x + p) / x) + p log2((x + p) / p) for x times its minutes r, so it earns no more than -price p log2(1 - 2^(-r / price)).
 */
import { earnedBy } from './earned.js';
import type { Prepared } from './prepared.js';
import type { State } from './state.js';
import { minutesOfTest, repairWeights, tells } from './state.js';

/** Minutes per bit that are tried out. */
const PRICES = Array.from({ length: 28 }, (_, k) => 0.1 * 1.25 ** k);

/** A price with what steps below one state may earn at it, each list per possibility and for each unit of its weight. */
export interface Priced {
  /** Number of the price. */
  readonly number: number;
  /** Tries, and tests that need no closed place. */
  readonly earned: Float64Array;
  /** Tests at a place that is closed: while it is, and once it is open. */
  readonly at: readonly {
    readonly place: number;
    readonly closed: Float64Array;
    readonly opened: Float64Array;
  }[];
}

export class Bound {
  /** Per price, per repair. */
  private readonly tries: readonly Float64Array[];

  constructor(private readonly prepared: Prepared) {
    this.tries = PRICES.map((price) =>
      Float64Array.from(
        prepared.repairs,
        ({ minutes }) => -price * (Math.log1p(-(2 ** (-minutes / price))) / Math.LN2),
      ),
    );
  }

  /**
   * The prices that bound best here; they hold below this state too.
   * @param near those of a state before it, about which to look; undefined: anywhere
   */
  pricesOf(state: State, near?: readonly Priced[]): Priced[] {
    const from = near === undefined ? 0 : Math.max(0, near[0]!.number - 1);
    const to = near === undefined ? PRICES.length - 1 : Math.min(PRICES.length - 1, near.at(-1)!.number + 1);
    const tests = this.prepared.tests.flatMap((_, test) => (tells(this.prepared, test, state) ? [test] : []));
    const bits = entropyOf(repairWeights(this.prepared, state));
    const priced: Priced[] = [];
    let best = 0;
    let most = -Infinity;
    for (let number = from; number <= to; number++) {
      const entry = this.priced(number, tests, state);
      const minutes = worth(entry, bits, state);
      if (minutes > most) [best, most] = [priced.length, minutes];
      priced.push(entry);
    }
    return priced.slice(Math.max(0, best - 1), best + 2);
  }

  /** At least so many minutes, at prices of this state or of one before it. */
  atLeast(state: State, prices: readonly Priced[]): number {
    const bits = entropyOf(repairWeights(this.prepared, state));
    let minutes = 0;
    for (const priced of prices) minutes = Math.max(minutes, worth(priced, bits, state));
    return this.opening(state) + minutes;
  }

  /** At least one more step; 0 when one repair is left. */
  oneStep(state: State): number {
    const { prepared } = this;
    const opening = this.opening(state);
    let least = Infinity;
    let left = 0;
    repairWeights(prepared, state).forEach((weight, repair) => {
      if (weight === 0) return;
      left++;
      least = Math.min(least, opening + (1 - weight) * prepared.repairs[repair]!.minutes);
    });
    if (left < 2) return 0;
    for (let test = 0; test < prepared.tests.length; test++) {
      const { minutes } = prepared.tests[test]!;
      if (opening + minutes >= least || !tells(prepared, test, state)) continue;
      // The right repair may be where the test is: not both are opened then.
      least = Math.min(least, Math.max(opening + minutes, minutesOfTest(prepared, test, state)));
    }
    return least;
  }

  /** The place of the right repair. */
  private opening({ who, weights, open }: State): number {
    const { repairs, repairOf, places } = this.prepared;
    let minutes = 0;
    for (let k = 0; k < who.length; k++) {
      const { place } = repairs[repairOf[who[k]!]!]!;
      if (place >= 0 && open[place] === 0) minutes += weights[k]! * places[place]!;
    }
    return minutes;
  }

  private priced(number: number, tests: readonly number[], state: State): Priced {
    const { prepared } = this;
    const price = PRICES[number]!;
    const count = prepared.weights.length;
    const tries = this.tries[number]!;
    const earned = Float64Array.from(prepared.repairOf, (repair) => tries[repair]!);
    const byPlace = new Map<number, Float64Array>();
    for (const test of tests) {
      const place = this.closedPlace(test, state);
      let sums = place < 0 ? earned : byPlace.get(place);
      if (sums === undefined) byPlace.set(place, (sums = new Float64Array(count)));
      earnedBy(prepared.tests[test]!, state, price, sums);
    }
    const at = [...byPlace].map(([place, opened]) => {
      const opening = prepared.places[place]!;
      const closed = opened.map((minutes, i) =>
        prepared.repairs[prepared.repairOf[i]!]!.place === place ? minutes : Math.max(0, minutes - opening),
      );
      return { place, closed, opened };
    });
    return { number, earned, at };
  }

  /** The dearest place still closed that a test needs, or -1. */
  private closedPlace(test: number, { open }: State): number {
    const { tests, places } = this.prepared;
    let dearest = -1;
    for (const place of tests[test]!.places)
      if (open[place] === 0 && (dearest < 0 || places[place]! > places[dearest]!)) dearest = place;
    return dearest;
  }
}

function worth({ number, earned, at }: Priced, bits: number, { who, weights, open }: State): number {
  let minutes = PRICES[number]! * bits;
  for (let k = 0; k < who.length; k++) minutes -= weights[k]! * earned[who[k]!]!;
  for (const { place, closed, opened } of at) {
    const earning = open[place] === 1 ? opened : closed;
    for (let k = 0; k < who.length; k++) minutes -= weights[k]! * earning[who[k]!]!;
  }
  return minutes;
}

/** Bits of shares that add up to 1. */
export function entropyOf(shares: Float64Array): number {
  let bits = 0;
  for (const share of shares) if (share > 0) bits -= share * Math.log2(share);
  return bits;
}
