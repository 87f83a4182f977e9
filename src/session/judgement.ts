/**
 * What the reasoner concluded at a moment of a session, kept beside the event that was recorded then. It is no event: nothing is
 * ever reasoned from it. A replay compares with it what comes out today.
 */

/** Ids of faults and parts as the circuit spells them; predictions and readings as they were shown. */
export interface Judgement {
  /** Shape of this record; those of later versions are not compared. */
  readonly version: typeof JUDGEMENT_VERSION;
  /** Program and version that concluded it. */
  readonly program: string;
  /** Accepted after a replay, instead of concluded while the work went on. */
  readonly accepted?: true;
  /** Circuit file it was judged by: SHA-256, and its text where no earlier record of the journal has it. */
  readonly drawing: { readonly hash: string; readonly text?: string };
  /** Hypotheses that fitted, the likeliest first. */
  readonly suspects: readonly string[];
  /** Parts of the likeliest. */
  readonly lead: readonly string[];
  /** Faults that single findings ruled out, with what each would have read. */
  readonly fallen: readonly FallenThen[];
  readonly findings: readonly FindingThen[];
  /** Fitted ranges of the likeliest suspects; ohms, volts, watts or amperes. */
  readonly severities: readonly SeverityThen[];
  readonly fits: boolean;
  readonly verified: boolean;
  /** The open explanation that weighed most. */
  readonly open: string;
  readonly cause: { readonly certainty: string; readonly parts: readonly string[] };
  /** Line of the suggested test, where one was worked out. */
  readonly next?: string;
}

export interface FallenThen {
  readonly finding: number;
  readonly reading: string;
  readonly prediction: string;
  readonly faults: readonly string[];
}

export interface FindingThen {
  readonly number: number;
  /** What a healthy vehicle would have read. */
  readonly healthy: string;
  readonly reading: string;
  readonly abnormal: boolean;
}

export interface SeverityThen {
  readonly fault: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
}

export const JUDGEMENT_VERSION = 1;

/** A judgement of a version this program does not know: kept, never compared. */
export interface LaterJudgement {
  readonly version: number;
}

/** Is it a judgement, of this version or a later one? */
export function isJudgement(value: unknown): value is Judgement | LaterJudgement {
  if (!isGroup(value) || !isCount(value['version'])) return false;
  if (value['version'] > JUDGEMENT_VERSION) return true;
  return Object.entries(SHAPE).every(([key, fits]) => fits(value[key]));
}

/** Can this program compare with it? */
export function isComparable(judged: Judgement | LaterJudgement): judged is Judgement {
  return judged.version === JUDGEMENT_VERSION;
}

type Group = Readonly<Record<string, unknown>>;
type Fits = (value: unknown) => boolean;

const isGroup = (value: unknown): value is Group =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isCount = (value: unknown): value is number => Number.isInteger(value) && (value as number) > 0;
const isText: Fits = (value) => typeof value === 'string';
const isFlag: Fits = (value) => typeof value === 'boolean';
const isFigure: Fits = (value) => typeof value === 'number' && Number.isFinite(value);
const maybe =
  (fits: Fits): Fits =>
  (value) =>
    value === undefined || fits(value);
const listOf =
  (fits: Fits): Fits =>
  (value) =>
    Array.isArray(value) && value.every(fits);
const groupOf =
  (shape: Readonly<Record<string, Fits>>): Fits =>
  (value) =>
    isGroup(value) && Object.entries(shape).every(([key, fits]) => fits(value[key]));

const SHAPE: Readonly<Record<string, Fits>> = {
  program: isText,
  accepted: maybe((value) => value === true),
  drawing: groupOf({ hash: isText, text: maybe(isText) }),
  suspects: listOf(isText),
  lead: listOf(isText),
  fallen: listOf(groupOf({ finding: isCount, reading: isText, prediction: isText, faults: listOf(isText) })),
  findings: listOf(groupOf({ number: isCount, healthy: isText, reading: isText, abnormal: isFlag })),
  severities: listOf(groupOf({ fault: isText, unit: isText, low: isFigure, high: isFigure })),
  fits: isFlag,
  verified: isFlag,
  open: isText,
  cause: groupOf({ certainty: isText, parts: listOf(isText) }),
  next: maybe(isText),
};
