/** A fault-finding tree as data: tests, the answers to them, and what is left at the ends. */
import type { Reading } from '../session/events.js';
import type { Suggestion } from './suggestion.js';

export type TreeNode = TreeTest | TreeLeaf;

export interface TreeTest {
  readonly kind: 'test';
  readonly test: Suggestion;
  /** Expected minutes of testing from here to a leaf, this test included; the repair comes on top. */
  readonly minutes: number;
  /** From low to high, or from good to dead; at least two, their shares adding up to 1. */
  readonly branches: readonly TreeBranch[];
}

export interface TreeBranch {
  /** The answer as a person is told: "lit", "11.8 to 12.6 V". */
  readonly when: string;
  /** Stands for every reading that belongs here: a word, or a figure whose step takes them all in. */
  readonly reading: Reading;
  /** Of the faults that come to this test, 0 to 1. */
  readonly share: number;
  readonly node: TreeNode;
}

export interface TreeLeaf {
  readonly kind: 'leaf';
  /**
   * `repair`: one is left, or all others together are rare. `one part`: the same of all that may be wrong with one part. `alike`: no
   * test here tells them apart. `not followed`: further tests would, but the branch is rare or the tree full. `not in this drawing`: no
   * single fault of the drawing fits.
   */
  readonly end: 'repair' | 'one part' | 'alike' | 'not followed' | 'not in this drawing';
  /** What may be needed, the likeliest first; shares of this leaf. */
  readonly repairs: readonly TreeRepair[];
}

export interface TreeRepair {
  readonly how: string;
  /** Part or wire that is at fault. */
  readonly part: string;
  /** Work alone. */
  readonly minutes: number;
  /** Of its parts, in the money of the circuit file. */
  readonly price: number;
  readonly share: number;
  /** Ids of the faults it mends. */
  readonly faults: readonly string[];
}
