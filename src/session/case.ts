/** What a session amounts to: the fold of its events. The reasoner reads the timeline and nothing else. */
import type { Action, Concern, MeterMode, Reading, SkipReason, Typed } from './events.js';
import type { SetUp } from './setup.js';

export interface Finding {
  /** Number of the event that recorded it. */
  readonly number: number;
  readonly at: string;
  readonly setUp: SetUp;
  readonly reading: Reading;
  readonly battery: Typed | undefined;
  readonly symptom: 'present' | 'absent';
  readonly evidence: 'measured' | 'seen' | 'told';
  /**
   * False for a zero, OL or no-beep whose meter was never proved in this session: it ranks, it rules nothing out.
   */
  readonly proved: boolean;
}

/** Findings and actions in the order in which they happened (not in which they were typed). */
export type Step =
  | { readonly kind: 'finding'; readonly finding: Finding }
  | { readonly kind: 'action'; readonly number: number; readonly at: string; readonly action: Action };

/** A circuit file as a session names it: its SHA-256 says which version. */
export interface Drawing {
  readonly id: string;
  readonly hash: string;
  readonly file: string;
}

export interface Case {
  /** The drawing the session stands on: the one it was opened on, or the last corrected one. */
  readonly circuit: Drawing;
  readonly program: string;
  readonly concern: Concern;
  readonly timeline: readonly Step[];
  /** The standing set-up, after the last action. */
  readonly now: SetUp;
  readonly symptom: 'present' | 'absent';
  /** What was said of the complaint with the last look at a load, or since; undefined: nothing. */
  readonly said: 'present' | 'absent' | undefined;
  readonly proofs: ReadonlySet<MeterMode>;
  /** Taken as good without a test, in the order said. */
  readonly assumed: readonly string[];
  readonly skipped: readonly { readonly test: string; readonly why: SkipReason }[];
  readonly notes: readonly { readonly number: number; readonly at: string; readonly text: string }[];
  readonly concluded:
    | { readonly number: number; readonly at: string; readonly time: string; readonly words: string }
    | undefined;
  readonly closed: boolean;
  readonly startedAt: string;
  readonly lastAt: string;
}
