/** What the reasoner says about a session. Plain data: screens, reports and replay read only this. */
import type { Repair } from './faults.js';

export interface FaultInfo {
  /** `X3.1 resistance`: stable in a circuit. */
  readonly id: string;
  readonly site: string;
  /** Part or wire it belongs to. */
  readonly part: string;
  readonly label: string;
  readonly repair: Repair;
}

/** An explanation of everything found: one fault, or two together. */
export interface Suspect {
  /** Ids of its faults, joined by ` + `. */
  readonly hypothesis: string;
  readonly faults: readonly FaultInfo[];
  /** Share of the weight that is left, 0 to 1. */
  readonly share: number;
  /** Severity that fits all findings, of the first fault; ohms above 1e7 are an open circuit. */
  readonly severity:
    { readonly unit: 'ohm' | 'V' | 'W'; readonly low: number; readonly high: number } | undefined;
  /** Positive evidence: a drop measured across it under load, damage seen, or repaired and the failed condition repeated good. */
  readonly confirmed: boolean;
  /** Disturbed since the complaint was last there. */
  readonly touched: boolean;
}

export interface Reason {
  /** Event number of the finding. */
  readonly finding: number;
  /** What the fault would have read: "11.9 to 12.6 V". */
  readonly prediction: string;
  /** What was read: "0.02 V". */
  readonly reading: string;
}

export interface Fallen {
  readonly hypothesis: string;
  readonly faults: readonly FaultInfo[];
  readonly reason: Reason;
}

export type Status = 'suspect' | 'not on its own' | 'assumed' | 'confirmed' | 'cleared';

export interface PartStatus {
  /** Part or wire id. */
  readonly part: string;
  readonly label: string;
  /** `cleared`: in no explanation of up to two faults. `not on its own`: no single fault of it fits; pairs were not tried out. */
  readonly status: Status;
  readonly share: number;
  readonly best: FaultInfo | undefined;
  /** For each of its fallen faults what ruled it out. */
  readonly fallen: readonly Fallen[];
}

export interface FindingSense {
  readonly number: number;
  /** One line: what this reading proved. */
  readonly provedWhat: string;
  /** A healthy vehicle would not have read so. */
  readonly abnormal: boolean;
  /** Rules out; otherwise it only ranks. */
  readonly hard: boolean;
  readonly prediction: string;
  readonly reading: string;
}

export interface OpenQuestion {
  readonly what: 'no fault now' | 'a reading is wrong' | 'the drawing differs';
  readonly advice: string;
  readonly findings: readonly number[];
}

export interface Diagnosis {
  /** Ranked; singles, or pairs when no single fault fits. */
  readonly suspects: readonly Suspect[];
  /** The same by repair: faults that one repair mends belong together. */
  readonly groups: readonly {
    readonly repair: Repair;
    readonly suspects: readonly Suspect[];
    readonly share: number;
  }[];
  /** True when the suspects are pairs. */
  readonly paired: boolean;
  readonly pairsExamined: { readonly done: number; readonly of: number };
  readonly fallen: readonly Fallen[];
  readonly parts: readonly PartStatus[];
  /** Some explanation in this drawing fits all findings. */
  readonly fits: boolean;
  /** The complaint was reproduced: some finding is not what a healthy vehicle reads. */
  readonly abnormal: boolean;
  readonly open: readonly OpenQuestion[];
  readonly findings: readonly FindingSense[];
  /** Things worth doing first, as sentences: prove the meter, reproduce the complaint … */
  readonly asks: readonly string[];
  /** Repaired, and every failed condition repeated good. */
  readonly verified: boolean;
}
