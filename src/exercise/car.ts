/**
 * A vehicle with something hidden wrong with it, as the person in front of it meets it: it can be worked on and read, nothing
 * else. What stands behind it (our solver, another one, a real vehicle) does not show.
 */
import type { Action, Reading, Typed } from '../session/events.js';
import type { SetUp } from '../session/setup.js';

/** What meter, eye or ear gave, as a person would write it down. */
export interface Answer {
  /** The reading that was asked, with its value. */
  readonly reading: Reading;
  /** Volts at the battery posts at that moment, for those who have a second meter there. */
  readonly battery: Typed;
}

export interface Car {
  /** Something was done to it. `after`: the set-up in which it now stands; fuses may blow there. */
  act(action: Action, after: SetUp): Promise<void>;
  /** The value in `reading` is ignored. Undefined where a meter refuses: ohms on a live line. */
  answer(setUp: SetUp, reading: Reading): Promise<Answer | undefined>;
}
