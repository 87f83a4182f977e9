/** An exercise as the program runs it: what the student is told, what is hidden, what may be used, how it is marked. */
import type { HiddenFault } from './hidden-faults.js';

/** What a student may have in the hands, by the trade's name. */
export const TOOLS = [
  'voltmeter',
  'ohmmeter',
  'test lamp',
  'ammeter',
  'clamp',
  'scan tool',
  'jumper',
  'known-good parts',
] as const;
export type Tool = (typeof TOOLS)[number];

/** What the program tells on the way: nothing; what is suspected; that and the test to do; the reasons as well. */
export const HELP = ['none', 'suspects', 'suggestions', 'all'] as const;
export type Help = (typeof HELP)[number];

export interface Hint {
  readonly text: string;
  /** What it costs. */
  readonly minutes: number;
  readonly money: number;
}

/** What marks are given for, and how many of 100 where the exercise does not say. */
export const MARKS = {
  found: 25,
  choices: 25,
  economy: 10,
  parts: 10,
  claims: 10,
  safety: 10,
  verified: 10,
} as const;
export type MarkItem = keyof typeof MARKS;
export type Marking = Readonly<Record<MarkItem, number>>;

export interface Exercise {
  readonly id: string;
  readonly title: string;
  /** What it is to teach; told at the end. */
  readonly goal: string;
  /** In the customer's words. */
  readonly concern: string;
  /** What the customer says fails and works, as typed lines. */
  readonly complaint: readonly string[];
  readonly faults: readonly HiddenFault[];
  /** Of part values, meter error and chance. */
  readonly seed: number;
  readonly tools: ReadonlySet<Tool>;
  /** Undefined: by the road of the program's own planner (see par). */
  readonly budget: { readonly minutes: number | undefined; readonly money: number | undefined };
  readonly help: Help;
  readonly hints: readonly Hint[];
  /** Adds up to 100. */
  readonly marking: Marking;
  /** SHA-256 of all that, and of the circuit file. */
  readonly hash: string;
}
