/** The contract between the network solver and everything that asks it for a prediction. */
import type { Law } from './network.js';

/** A meter, test lamp or jumper attached between two nodes. */
export interface AddedElement {
  readonly a: number;
  readonly b: number;
  readonly law: Law;
}

/** A fault at a chosen severity. */
export type AppliedFault =
  /** Ohms added in series with an element (Infinity = open). */
  | { readonly kind: 'series'; readonly element: number; readonly ohms: number }
  /** Ohms from a node to body metal. */
  | { readonly kind: 'shunt'; readonly node: number; readonly ohms: number }
  /** The element follows another law (wrong lamp, flat battery). */
  | { readonly kind: 'law'; readonly element: number; readonly law: Law }
  /** Ohms between two nodes that should not touch; `element`: one of the item inside which they are, if they are. */
  | {
      readonly kind: 'bridge';
      readonly a: number;
      readonly b: number;
      readonly ohms: number;
      readonly element?: number;
    }
  /** The element hangs between these nodes instead of its own: a diode fitted the wrong way round has them exchanged. */
  | { readonly kind: 'rehung'; readonly element: number; readonly a: number; readonly b: number }
  /**
   * Two joints (connector pins) whose `b` ends are exchanged. Every node keeps the wires it has in the drawing: a point is where
   * that wire ends, in whichever cavity it sits.
   */
  | { readonly kind: 'crossed'; readonly first: number; readonly second: number }
  /** A contact that no longer obeys its control or coil. */
  | { readonly kind: 'stuck'; readonly element: number; readonly closed: boolean };

/** One fully chosen version of the network: everything but relay states and fuses, which the solver works out. */
export interface Variant {
  /**
   * Per network element, 1 = connected. 0 for cut joints and for control contacts that are open in this set-up.
   * Contacts driven by a coil are left at 1; the solver decides.
   */
  readonly present: Uint8Array;
  readonly faults: readonly AppliedFault[];
  /** Fuses already blown, bit i = network.fuses[i]. */
  readonly blown: number;
  /**
   * Edge of tolerance per element (network elements, then the added ones): +1 = the more conductive edge (for a source:
   * the higher volts, for a diode: the lower forward volts), −1 the other, 0 nominal. Undefined = all nominal.
   */
  readonly corner?: Int8Array;
  /** Warm start: element voltages of an earlier outcome of a like variant. */
  readonly start?: Outcome;
  /** Keep relays in this state (bit i = network.coils[i] pulled in) instead of working them out. */
  readonly forcedRelays?: number;
  /** With `forcedRelays`: the other moment of a flasher is not asked for, and not worked out. */
  readonly still?: boolean;
}

/** How long and how a network stands while contacts with a duty (see Law `contact`) go on and off. */
export interface PhaseStep {
  /** Part of the time. */
  readonly share: number;
  readonly volts: Float64Array;
  /** Contacts with a duty that are open meanwhile. */
  readonly open: readonly number[];
}

export interface Phases {
  /** Volts of every node while all that goes on and off is on, and while all of it is off. */
  readonly on: Float64Array;
  readonly off: Float64Array;
  /** True: a flasher, which eye and meter can follow; the outcome's volts are those of its own state. False: too fast for both. */
  readonly slow: boolean;
  /** What the outcome's volts are the mean of; empty where nothing is fast. */
  readonly steps: readonly PhaseStep[];
}

/** One stable way the network can stand. */
export interface Outcome {
  /** Volts of every node against the battery's negative post; the mean over fast phases, as a DC meter shows it. */
  readonly volts: Float64Array;
  /** There where something goes on and off by itself. */
  readonly phases?: Phases;
  /** Bit i = network.coils[i] pulled in. */
  readonly pulledIn: number;
  /** Fuses open at the end, those of the variant included. */
  readonly blown: number;
  /** No stable state: a relay chatters between this outcome and its other ones. */
  readonly chatters: boolean;
  /** Then: masks of coils that may stay pulled in meanwhile. */
  readonly staying?: readonly number[];
}
