/** A finished report as data: the text, Markdown and JSON forms all print exactly this. */

/** Raised when a field changes its meaning or goes away. */
export const REPORT_SCHEMA = 1;

/**
 * How sure the cause is. `confirmed`: positive evidence, or repaired and every failed condition repeated good.
 * `only one left`: nothing else in this drawing explains the readings. Never stronger than the diagnosis says.
 */
export type Certainty = 'confirmed' | 'only one left' | 'most likely' | 'not found';

export interface Cause {
  readonly certainty: Certainty;
  /** Where and what: one per fault that no reading told apart. */
  readonly faults: readonly string[];
  /** Part and wire ids of those faults. */
  readonly parts: readonly string[];
  /** Why it is (not) called confirmed. */
  readonly grounds: string;
  /** Fitted severity, in words; absent when none was fitted. */
  readonly severity?: string;
  /** For the customer: places instead of every contact. */
  readonly inShort: string;
  /** Share by measurements and reproduced sights alone, 0 to 1. */
  readonly measuredShare: number;
  /** Always there, or one that comes and goes; `either`: the readings do not say. */
  readonly course: 'steady' | 'comes and goes' | 'either';
  /** What it explains, finding by finding. */
  readonly explains: readonly Reasoned[];
  /** The technician's own words, if a cause was named. */
  readonly conclusion?: string;
  /** Share of the remaining weight, 0 to 1. */
  readonly share: number;
}

/** A finding that speaks for the cause: what was read, what the cause predicts, what a healthy vehicle would have read. */
export interface Reasoned {
  readonly finding: number;
  readonly reading: string;
  readonly predicted: string;
  readonly healthy: string;
}

/** One line of the record: a finding or a thing done, in the order in which it happened. */
export interface ReportStep {
  readonly number: number;
  readonly time: string;
  readonly kind: 'measured' | 'seen' | 'told' | 'done';
  /** Set-up of a finding; empty for things done. */
  readonly conditions: string;
  readonly words: string;
  /** What this reading proved; empty for things done. */
  readonly proved: string;
}

/** Faults that a reading excludes, with what each of them would have made it read. */
export interface RuledOut {
  readonly faults: readonly string[];
  /** Part and wire ids of those faults; other faults of the same parts may remain. */
  readonly parts: readonly string[];
  readonly finding: number;
  readonly reading: string;
  readonly predicted: string;
}

export interface Verification {
  readonly state: 'verified' | 'partly verified' | 'not verified';
  readonly words: string;
  /** Failed conditions repeated good after the repair. */
  readonly repeated: readonly string[];
  /** Failed conditions not repeated, or not good. */
  readonly missing: readonly string[];
}

export interface Report {
  readonly schema: typeof REPORT_SCHEMA;
  readonly kind: 'knowngood report';
  readonly program: string;
  readonly sessionHash: string;
  readonly circuit: { readonly id: string; readonly title: string; readonly hash: string };
  /** One plain paragraph. */
  readonly customer: string;
  readonly concern: string;
  readonly cause: Cause;
  readonly correction: readonly string[];
  /** Label and value, in print order. */
  readonly vehicle: readonly (readonly [string, string])[];
  readonly history: readonly string[];
  readonly asFound: readonly string[];
  readonly asLeft: readonly string[];
  readonly instrument: readonly string[];
  readonly steps: readonly ReportStep[];
  readonly ruledOut: readonly RuledOut[];
  /** Cleared by reasoning from readings taken elsewhere. */
  readonly clearedUntested: readonly string[];
  readonly assumed: readonly string[];
  /** What those assumptions take away: it would still fit. */
  readonly assumedAway: readonly string[];
  /** Told or looked at: it moved shares of what is named here, and ruled nothing out. */
  readonly soft: readonly string[];
  /** Blown fuses as symptoms, with what may have blown them. */
  readonly blown: readonly string[];
  /** What could not show while a fault stood before it. */
  readonly hidden: readonly string[];
  /** Groups that no reachable test tells apart, where to look, and which access would split them. */
  readonly alike: readonly string[];
  /** Findings on which the answer hangs: what would lead if one of them were wrong. */
  readonly weakLinks: readonly string[];
  /** Always open beside the drawing's faults, each with its share and check. */
  readonly open: readonly string[];
  readonly skipped: readonly string[];
  /** Other explanations that remain. */
  readonly remaining: readonly string[];
  /** What the program asks for: proofs, readings to take again. */
  readonly asks: readonly string[];
  readonly replaced: readonly string[];
  readonly notReplaced: readonly string[];
  /** Minutes from the first to the last entry; absent when the session has no clock times. */
  readonly minutesOpen?: number;
  readonly repairMinutes: number;
  readonly price: number;
  readonly verification: Verification;
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly closed: boolean;
}
