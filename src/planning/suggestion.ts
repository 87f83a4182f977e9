/** A test worth doing next, in words for a person and as a line for the record. */
import type { Caution } from './cautions.js';

export interface Suggestion {
  /** Grammar line without the reading, e.g. "volts X3.1h bat-" or "H1". */
  readonly line: string;
  /** Lines to do first: "gear reverse", "unplug X3". */
  readonly first: readonly string[];
  readonly words: string;
  readonly minutes: number;
  /** What kind of answer the line waits for. */
  readonly expects: 'volts' | 'ohms' | 'beep' | 'sight' | 'testlamp' | 'amps';
  /** What each outcome would mean. `when`: "about 12 V". `chance`: 0 to 1. */
  readonly outcomes: readonly { readonly when: string; readonly means: string; readonly chance: number }[];
  readonly cautions: readonly Caution[];
}
