/**
 * The order of tests as a problem of its own, without circuits: what may be wrong, which repairs would mend it, what each test would
 * show and what it costs. Everything that looks ahead works on this.
 */

/** One thing that may be wrong: a fault at a severity. */
export interface Possibility {
  /** Prior weight; need not add up to 1. */
  readonly weight: number;
  /** Number of the repair that mends it. */
  readonly repair: number;
}

export interface RepairCost {
  /** Minutes to do it and to repeat the failed condition, parts money counted as minutes. */
  readonly minutes: number;
  /** Number of the place that must be open for it; undefined: none. */
  readonly place?: number;
}

export interface SequencedTest {
  /** Minutes once its places are open, disturbance counted. */
  readonly minutes: number;
  /** Numbers of the places that must be open for it. */
  readonly places: readonly number[];
  /**
   * Per possibility the classes of reading it may show: pairs of class number and chance, the chances of one possibility adding up
   * to 1. A class rules out a possibility that cannot show it.
   */
  readonly shows: readonly (readonly (readonly [outcome: number, chance: number])[])[];
}

export interface Problem {
  readonly possibilities: readonly Possibility[];
  readonly repairs: readonly RepairCost[];
  readonly tests: readonly SequencedTest[];
  /** Minutes to open each place, once. */
  readonly places: readonly number[];
}

/** What is known on the way: weights that are left (0 = ruled out) and places that are open. */
export interface Knowledge {
  readonly weights: readonly number[];
  readonly open: ReadonlySet<number>;
  /** Numbers of the tests done already: read again, they would show the same. */
  readonly done?: ReadonlySet<number>;
}

/** The next step: a test, or trying a repair (and repeating the failed condition, which tells whether it was the right one). */
export type Step = { readonly test: number } | { readonly repair: number };
