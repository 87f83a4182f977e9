/** What a session amounts to: the fold of its events. The reasoner reads the timeline and nothing else. */
import type { Action, Concern, Reading, SkipReason, Typed } from './events.js';
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

export interface Case {
  readonly circuit: { readonly id: string; readonly hash: string; readonly file: string };
  readonly program: string;
  readonly concern: Concern;
  readonly timeline: readonly Step[];
  /** The standing set-up, after the last action. */
  readonly now: SetUp;
  readonly symptom: 'present' | 'absent';
  readonly proofs: ReadonlySet<'volts' | 'ohms' | 'test lamp' | 'amps'>;
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
