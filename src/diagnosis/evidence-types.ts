/** A session's timeline as the reasoner walks it. */
import type { Fault } from './faults.js';
import type { Grid } from './grid.js';
import type { Observation } from './observe.js';

export type Touch = (fault: Fault) => boolean;

/** The network of a set-up in which nothing is read. */
export type Standing = Pick<
  Observation,
  'added' | 'unpowered' | 'present' | 'source' | 'pinned' | 'quantity'
>;

export interface Change {
  readonly kind: 'change';
  readonly touched: readonly Touch[];
  /** Only a control was worked: its contacts may have changed, but nobody would say they were disturbed. */
  readonly operated: boolean;
  /** Faults that went away with a part that was replaced by a new one. */
  readonly replaced: Touch | undefined;
  /** Fuses that are whole again, as a mask. */
  readonly newFuse: number;
  /** The set-up after the action, in which a fuse may blow. */
  readonly standing: Standing | undefined;
}

export type EvidenceStep =
  | Change
  | { readonly kind: 'symptom'; readonly now: 'present' | 'absent' }
  | {
      readonly kind: 'observation';
      readonly observation: Observation;
      readonly symptom: 'present' | 'absent';
    };

export interface Evidence {
  readonly steps: readonly EvidenceStep[];
  /** How looks speak for or against a hypothesis, as factors. */
  readonly looks: readonly ((faults: readonly Fault[]) => number)[];
  /** Fuses that a fault may have blown before the session began. */
  before(grid: Grid): readonly { readonly blown: number; readonly places: readonly number[] }[];
}
