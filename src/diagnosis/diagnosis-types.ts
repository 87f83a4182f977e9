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

/** A severity fitted to all findings at once. */
export interface FittedSeverity {
  readonly unit: 'ohm' | 'V' | 'W' | 'A';
  /** Best fit; ohms above 1e7 are an open circuit. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Volts it takes away in the failed condition, and in which: "1.9 V with pedal down". */
  readonly steals: { readonly volts: number; readonly condition: string } | undefined;
}

/** What was said or seen without proof, and how it moves the ranking. */
export interface SoftNote {
  readonly finding: number;
  /** Above 1 it speaks for the suspect, below 1 against. */
  readonly factor: number;
  readonly words: string;
}

/** An explanation of everything found: one fault, or two or three together. */
export interface Suspect {
  /** Ids of its faults, joined by ` + `. */
  readonly hypothesis: string;
  readonly faults: readonly FaultInfo[];
  /** Share of the weight that is left, 0 to 1; soft evidence moves it. */
  readonly share: number;
  /** The share by measurements and reproduced sights alone. */
  readonly measuredShare: number;
  /** What moved the share without proving anything. */
  readonly soft: readonly SoftNote[];
  /** Per fault, in their order; undefined where a fault has no severity or none is known. */
  readonly severities: readonly (FittedSeverity | undefined)[];
  /** Does it fit as a fault that is always there, as one that comes and goes, or as both? */
  readonly course: 'steady' | 'comes and goes' | 'either';
  /** Per finding that speaks for it: what it predicts, what was read, what a healthy vehicle would have read. */
  readonly explains: readonly Explained[];
  /** Positive evidence: a drop measured across it under load, damage seen, or repaired and the failed condition repeated good. */
  readonly confirmed: boolean;
  /** Disturbed since the complaint was last there. */
  readonly touched: boolean;
  /** It can only have blown a fuse and gone since: no reading tells it from nothing, before it is back. */
  readonly away: boolean;
  /** Findings that it meets only at the far edge of what can be, where others meet them better; left out: none, or not worked out. */
  readonly atEdge?: readonly number[];
  /** Faults that were there too until they were repaired: it is what was left over. */
  readonly besides?: readonly FaultInfo[];
}

export interface Explained {
  readonly finding: number;
  readonly prediction: string;
  readonly reading: string;
  readonly healthy: string;
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

/**
 * Of each of these suspects the findings that it meets only at the far edge of what can be, by number; undefined: not worked out.
 * @param ranges per suspect and fault the severities that fit: lower and upper edge
 */
export type EdgeFits = (
  suspects: readonly Suspect[],
  ranges: readonly (readonly { readonly low: number; readonly high: number }[])[],
  findings: readonly FindingSense[],
) => readonly (readonly number[] | undefined)[];

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
  /** Weight it has beside the suspects, 0 to 1: small while something in the drawing fits. */
  readonly share: number;
}

/** A fuse or breaker found or shown open is a symptom: what may have opened it. */
export interface BlownFuse {
  readonly fuse: string;
  /** What closes it again where it opens instead of melting: a breaker, or an output of a module that shuts down. */
  readonly resets?: 'automatic' | 'manual' | 'electronic' | undefined;
  readonly reasons: readonly {
    readonly why: 'short' | 'overload' | 'stalled motor' | 'old age';
    /** Where: ids of the faults. */
    readonly faults: readonly FaultInfo[];
    readonly share: number;
  }[];
}

/** What cannot be judged while a fault stands before it. */
export interface Hidden {
  /** The suspect that hides others. */
  readonly behind: FaultInfo;
  /** Faults that would not have shown so far and would matter after its repair; the likeliest first. */
  readonly faults: readonly FaultInfo[];
  readonly advice: string;
}

/** Suspects that no test at a reachable point tells apart. */
export interface Alike {
  readonly faults: readonly FaultInfo[];
  /** What to look at by eye, place by place. */
  readonly lookHere: readonly string[];
  /** Points that are out of reach or not to be probed, at which a reading would tell them apart. */
  readonly access: readonly string[];
}

export interface Diagnosis {
  /** Ranked; singles, pairs when no single fault fits, or both when the singles fit in a far-fetched way only. */
  readonly suspects: readonly Suspect[];
  /** The same by repair: faults that one repair mends belong together. */
  readonly groups: readonly {
    readonly repair: Repair;
    readonly suspects: readonly Suspect[];
    readonly share: number;
  }[];
  /** No single fault fits: all suspects are pairs, or threes. */
  readonly paired: boolean;
  readonly pairsExamined: { readonly done: number; readonly of: number };
  /** Hypotheses of the pairs that fit, also while single faults explain everything (then only if all pairs were judged). */
  readonly survivingPairs: readonly string[];
  readonly fallen: readonly Fallen[];
  readonly parts: readonly PartStatus[];
  /** Some explanation in this drawing fits all findings. */
  readonly fits: boolean;
  /** The complaint was reproduced: some finding is not what a healthy vehicle reads. */
  readonly abnormal: boolean;
  /** The complaint is gone, by itself or for something that was done: readings now show the vehicle without what comes and goes. */
  readonly gone: boolean;
  readonly open: readonly OpenQuestion[];
  readonly findings: readonly FindingSense[];
  /** Things worth doing first, as sentences: prove the meter, reproduce the complaint … */
  readonly asks: readonly string[];
  /** Repaired, and every failed condition repeated good. */
  readonly verified: boolean;
  readonly blown: readonly BlownFuse[];
  readonly hidden: readonly Hidden[];
  /** Suspects that would still stand had their parts not been taken as good. */
  readonly assumedAway: readonly FaultInfo[];
  /** Three faults at once were tried too, from pairs that nearly fit: never all of them. */
  readonly triples: boolean;
}
