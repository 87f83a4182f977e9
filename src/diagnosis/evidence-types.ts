/** A session's timeline as the reasoner walks it. */
import type { Fault } from './faults.js';
import type { Grid } from './grid.js';
import type { Observation } from './observe.js';
import type { Question } from './question.js';

export type Touch = (fault: Fault) => boolean;

/** Was the complaint there? After a repair nobody knows until it is looked at again. */
export type Symptom = 'present' | 'absent' | 'unsure';

export interface Change {
  readonly kind: 'change';
  readonly touched: readonly Touch[];
  /** Only a control was worked: its contacts may have changed, but nobody would say they were disturbed. */
  readonly operated: boolean;
  /** What it was meant to mend, if it was a repair: a new switch mends no bad pin in its plug, though that was disturbed. */
  readonly mends: Touch | undefined;
  /** Faults that went away with a part that was replaced by a new one. */
  readonly replaced: Touch | undefined;
  /** Fuses that are whole again, as a mask. */
  readonly newFuse: number;
  /** What the exchange of items makes of a mask of open fuses; undefined where nothing was exchanged. */
  readonly movedFuses: ((blown: number) => readonly number[]) | undefined;
  /** Electronic fuses that may have closed again by themselves, as a mask. */
  readonly mayClose: number;
  /** The set-up after the action, in which a fuse may blow. */
  readonly standing: Question | undefined;
}

export type EvidenceStep =
  | Change
  | { readonly kind: 'symptom'; readonly now: 'present' | 'absent'; readonly finding: number }
  /** A load does otherwise than when it was last looked at, and whether the complaint is there stands as it stood. */
  | { readonly kind: 'turned' }
  /** How something looks: a factor for or against a hypothesis. */
  | {
      readonly kind: 'look';
      readonly finding: number;
      readonly words: string;
      readonly favours: (faults: readonly Fault[]) => number;
    }
  | {
      readonly kind: 'observation';
      readonly observation: Observation;
      readonly symptom: Symptom;
      /** A load that failed before fails again in the same set-up. */
      readonly again: boolean;
    };

export interface Evidence {
  readonly steps: readonly EvidenceStep[];
  /** Names the first n steps, for each n: equal names mean equal beginnings. */
  readonly prefixes: readonly string[];
  /** What had failed was last seen doing what it should, and nothing is known to fail still. */
  readonly wellAgain: boolean;
  /** Fuses that a fault may have blown before the session began. */
  before(grid: Grid): readonly { readonly blown: number; readonly places: readonly number[] }[];
}
