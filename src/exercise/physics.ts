/** What a simulated vehicle asks of whatever works out its voltages. */
import type { Network } from '../network/network.js';
import type { AddedElement, Variant } from '../network/solver-types.js';

/** A network in which every relay and fuse is decided and nothing goes on and off, so that only voltages are open. */
export interface Decided {
  readonly network: Network;
  readonly added: readonly AddedElement[];
  readonly variant: Variant;
  /** Bit i = network.coils[i] pulled in. */
  readonly pulledIn: number;
  /** Bit i = network.fuses[i] open. */
  readonly blown: number;
}

export interface Physics {
  /** Volts of every node against battery negative, per network, in the order given. Contacts have no duty here. */
  volts(decided: readonly Decided[]): Promise<readonly Float64Array[]>;
}
