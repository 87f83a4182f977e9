/**
 * What the rest of a search for the right repair costs at the very least. Never too much, so that what cannot be best is left out of
 * the search without harm:
 * - the place of the right repair is opened in any case, the place of a test on all ways that do it;
 * - one more step is needed;
 * - every bit about the repair must come from somewhere (as Pattipati & Alexandridis 1990 bound by entropy; prices and tries are ours).
 *   Put a price, in minutes, on a bit. A test is done once on any way and gives no more than its capacity, so it earns no more than
 *   price x capacity - minutes. Trying a repair of probability p, wrong with probability x before that, gives no more bits than
 *   x log2((x + p) / x) + p log2((x + p) / p) for x times its minutes r (each way tries it once; the bits are concave), so it earns
 *   no more than -price p log2(1 - 2^(-r / price)). Bits times price less all these earnings is a bound, whatever the price.
 */
import { capacityOf } from './capacity.js';
import type { Prepared } from './prepared.js';
import type { State } from './state.js';
import { repairWeights, tells } from './state.js';

/** Minutes per bit that are tried out. */
const PRICES = Array.from({ length: 28 }, (_, k) => 0.1 * 1.25 ** k);

/** A price with what tests below one state may earn at it. */
export interface Priced {
  readonly price: number;
  /** Tests that need no closed place. */
  readonly earned: number;
  /** Per closed place the tests that need it. */
  readonly earnedAt: Float64Array;
  /** Per repair what trying it may earn, for each unit of its weight. */
  readonly tries: Float64Array;
}

/** What a state needs to be bounded. */
interface Outline {
  /** Bits about the repair. */
  readonly bits: number;
  /** Weight of each repair. */
  readonly weights: Float64Array;
  /** Per place the chance that the right repair is there. */
  readonly there: Float64Array;
  readonly open: Uint8Array;
}

export class Bound {
  private readonly capacities: readonly number[];
  private readonly tries: readonly Float64Array[];

  constructor(private readonly prepared: Prepared) {
    this.capacities = prepared.tests.map(capacityOf);
    this.tries = PRICES.map((price) =>
      Float64Array.from(
        prepared.repairs,
        ({ minutes }) => -price * (Math.log1p(-(2 ** (-minutes / price))) / Math.LN2),
      ),
    );
  }

  /** The prices that bound best here; they hold below this state too. */
  pricesOf(state: State): Priced[] {
    const { prepared } = this;
    const tests = this.earners(state);
    const outline = this.outlineOf(state);
    const priced = PRICES.map((price, k): Priced => {
      let earned = 0;
      const earnedAt = new Float64Array(prepared.places.length);
      for (const { minutes, bits, place } of tests) {
        const gain = Math.max(0, price * bits - minutes);
        if (place < 0) earned += gain;
        else earnedAt[place]! += gain;
      }
      return { price, earned, earnedAt, tries: this.tries[k]! };
    });
    let best = 0;
    let most = -Infinity;
    priced.forEach((entry, k) => {
      const minutes = this.worth(entry, outline);
      if (minutes > most) [best, most] = [k, minutes];
    });
    return priced.slice(Math.max(0, best - 2), best + 2);
  }

  /** At least so many minutes, at prices of this state or of one before it. */
  atLeast(state: State, prices: readonly Priced[]): number {
    const outline = this.outlineOf(state);
    let minutes = 0;
    for (const priced of prices) minutes = Math.max(minutes, this.worth(priced, outline));
    return this.opening(outline) + minutes;
  }

  /** At least one more step; 0 when one repair is left. */
  oneStep(state: State): number {
    const { prepared } = this;
    const outline = this.outlineOf(state);
    let least = Infinity;
    let left = 0;
    outline.weights.forEach((weight, repair) => {
      if (weight === 0) return;
      left++;
      least = Math.min(least, (1 - weight) * prepared.repairs[repair]!.minutes);
    });
    if (left < 2) return 0;
    for (const { minutes, place } of this.earners(state)) {
      const avoidable = place < 0 ? 0 : prepared.places[place]! * (1 - outline.there[place]!);
      least = Math.min(least, minutes + avoidable);
    }
    return this.opening(outline) + least;
  }

  /** The place of the right repair. */
  private opening({ there, open }: Pick<Outline, 'there' | 'open'>): number {
    let minutes = 0;
    for (let place = 0; place < there.length; place++)
      if (open[place] === 0) minutes += there[place]! * this.prepared.places[place]!;
    return minutes;
  }

  private worth({ price, earned, earnedAt, tries }: Priced, { bits, weights, there, open }: Outline): number {
    let minutes = price * bits - earned;
    for (let repair = 0; repair < weights.length; repair++)
      // A repair that takes no time may earn without end, and 0 times that is not a number.
      if (weights[repair]! > 0) minutes -= weights[repair]! * tries[repair]!;
    for (let place = 0; place < there.length; place++) {
      const gain = earnedAt[place]!;
      if (gain === 0) continue;
      const opening = open[place] === 1 ? 0 : this.prepared.places[place]!;
      // Opened only on ways that end there, or on all ways: what lies between is no better than both.
      minutes -= Math.max(gain * there[place]!, gain - opening * (1 - there[place]!));
    }
    return minutes;
  }

  private outlineOf(state: State): Outline {
    const { prepared } = this;
    const weights = repairWeights(prepared, state);
    const there = new Float64Array(prepared.places.length);
    for (let repair = 0; repair < weights.length; repair++) {
      const { place } = prepared.repairs[repair]!;
      if (place >= 0) there[place]! += weights[repair]!;
    }
    return { bits: entropyOf(weights), weights, there, open: state.open };
  }

  /** Tests that tell something here, each with the dearest place still closed that it needs, or -1. */
  private earners(state: State): { minutes: number; bits: number; place: number }[] {
    const { prepared, capacities } = this;
    return prepared.tests.flatMap(({ minutes, places }, number) => {
      if (!tells(prepared, number, state)) return [];
      const bits = Math.min(capacities[number]!, Math.log2(classesLeft(prepared, number, state)));
      let place = -1;
      for (const needed of places)
        if (state.open[needed] === 0 && (place < 0 || prepared.places[needed]! > prepared.places[place]!))
          place = needed;
      return [{ minutes, bits, place }];
    });
  }
}

/** Bits of shares that add up to 1. */
export function entropyOf(shares: Float64Array): number {
  let bits = 0;
  for (const share of shares) if (share > 0) bits -= share * Math.log2(share);
  return bits;
}

function classesLeft({ tests }: Prepared, number: number, { who }: State): number {
  const { start, classes, classCount } = tests[number]!;
  const seen = new Uint8Array(classCount);
  let count = 0;
  for (let k = 0; k < who.length; k++)
    for (let e = start[who[k]!]!; e < start[who[k]! + 1]!; e++) {
      if (seen[classes[e]!] === 1) continue;
      seen[classes[e]!] = 1;
      count++;
    }
  return count;
}
