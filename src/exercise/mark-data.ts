/** A mark sheet as data; the text, CSV and JSON forms print exactly this. */
import type { MarkItem } from './exercise.js';

export interface Loss {
  readonly item: MarkItem;
  /** Marks lost, above 0. */
  readonly marks: number;
  /** The event that cost them, with its words; undefined where something was never done. */
  readonly event: { readonly number: number; readonly words: string } | undefined;
  readonly why: string;
}

/** One choice beside the best there was, by what was known at that moment. */
export interface Choice {
  readonly number: number;
  readonly words: string;
  readonly kind: 'test' | 'repair';
  /** What the student expected, where it was said. */
  readonly predicted: string | undefined;
  /** Expected bits about the repair, and bits a minute. */
  readonly bits: number;
  readonly value: number;
  readonly best: { readonly line: string; readonly bits: number; readonly value: number } | undefined;
  /** 0 to 1: its value over the best one's. */
  readonly score: number;
  /** What the reading proved, or what the repair cured. */
  readonly told: string;
  /** Repairs that were left before and after it. */
  readonly left: readonly [before: number, after: number];
}

export interface Mark {
  readonly exercise: string;
  readonly attempt: number;
  readonly student: string;
  /** Of 100. */
  readonly total: number;
  readonly items: Readonly<Record<MarkItem, { readonly of: number; readonly got: number }>>;
  readonly losses: readonly Loss[];
  readonly choices: readonly Choice[];
  readonly minutes: number;
  readonly money: number;
  readonly budget: { readonly minutes: number; readonly money: number };
  /** The planner's road on the same vehicle. */
  readonly par: { readonly minutes: number; readonly money: number; readonly tests: number };
  readonly cured: boolean;
  readonly closed: boolean;
  /** What was wrong with the vehicle. */
  readonly truth: readonly string[];
}
