/** A test that could be done, before anybody knows what it would tell. */
import type { Part } from '../circuit/circuit.js';
import type { TestCost } from '../circuit/costs.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Action, Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import type { Condition } from './condition.js';

export interface Candidate {
  /** Grammar line without the reading. */
  readonly line: string;
  readonly words: string;
  readonly setUp: SetUp;
  /** Done last, with the eyes on the reading. */
  readonly wiggle?: Extract<Action, { do: 'wiggle' | 'clean' | 'tighten' | 'reseat' }> | undefined;
  /** The reading with a blank value. */
  readonly reading: Reading;
  /** The bare test in its set-up, at an open place, by the name of its cost. */
  readonly bare: TestCost;
  /** Parts at which a person must be for it. */
  readonly at: readonly string[];
}

/** What the makers of candidates choose from. */
export interface Scope {
  readonly bench: Workbench;
  readonly conditions: readonly Condition[];
  /** Parts that may be probed and handled. */
  readonly parts: readonly Part[];
  /** Points that may be probed, of parts plugged and fitted. */
  readonly points: readonly { readonly point: string; readonly part: Part }[];
}

export const BLANK = { value: 0, step: 0.01 } as const;
