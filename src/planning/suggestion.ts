/** A test worth doing next: in words for a person, as lines for the record, and as the events those lines stand for. */
import type { Action, Reading, Sight } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Caution } from './cautions.js';

export interface Suggestion {
  /** Grammar line without the reading, e.g. "volts X3.1h" or "H1". */
  readonly line: string;
  /** Lines to do first: "gear reverse", "unplug X3". */
  readonly first: readonly string[];
  /** The same as actions, in the same order. */
  readonly actions: readonly Action[];
  /** The set-up after them, in which the reading is taken. */
  readonly setUp: SetUp;
  /** The reading asked for; its value is a blank. */
  readonly reading: Reading;
  readonly words: string;
  readonly minutes: number;
  /**
   * Minutes expected until the right repair is begun when this is done first and the best follows, wrong tries counted; undefined
   * where nobody planned so far ahead.
   */
  readonly expectedMinutes?: number;
  /** Bits it is expected to tell about which repair is needed; below about 0.05 it is hardly worth its minutes. */
  readonly gain: number;
  /** Some outcome would rule a repair out for good. */
  readonly separates: boolean;
  /** What kind of answer the line waits for. */
  readonly expects: 'volts' | 'ohms' | 'beep' | 'sight' | 'testlamp' | 'amps' | 'scan';
  /** Words for what the load may do, good first; left out where no load is looked at. */
  readonly sights?: readonly Sight[];
  /** What each outcome would mean. `when`: "about 12 V". `chance`: 0 to 1. */
  readonly outcomes: readonly { readonly when: string; readonly means: string; readonly chance: number }[];
  readonly cautions: readonly Caution[];
}
