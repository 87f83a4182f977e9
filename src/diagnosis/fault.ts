/** What a fault is: where it sits, what it does to the network, how severe it can be, how likely it is, what repairs it. */
import type { Element } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';
import type { Scale } from './severity.js';

export type FaultKind =
  | 'resistance' // a contact or wire with added ohms, up to open
  | 'open' // a fuse, filament, coil or winding that is broken
  | 'short' // insulation or a part leaking or shorted to body metal, or a part shorted inside
  | 'stuck' // a contact that stays closed, or an output that stays on
  | 'flat' // the battery gives too few volts
  | 'undercharging' // the alternator gives too few volts, down to none
  | 'overcharging' // its regulator lets it give too many
  | 'wrong' // another part fitted than the drawing says, or the right one the wrong way round
  | 'seized' // a motor or solenoid that does not move
  | 'dragging' // a motor that turns hard
  | 'leaking' // a diode that lets current back
  | 'drifted' // a resistance that is not what it should be
  | 'touching' // two wires, pins or filaments that touch each other
  | 'crossed' // two pins of a connector in each other's place
  | 'tapped' // a load that somebody connected to a wire
  | 'dead' // a module, or an input or output of it, that does nothing
  | 'awake'; // a module that does not go to sleep

export interface Repair {
  /** "clean and tighten GP2 (left tail ground)". Faults with the same words are one repair. */
  readonly how: string;
  readonly minutes: number;
  readonly price: number;
}

export interface Fault {
  /** Unique in the circuit: `X3.1 resistance`. */
  readonly id: string;
  readonly site: string;
  /** Part or wire it belongs to. */
  readonly part: string;
  /** An item goes away with the part; a position and a wire stay. */
  readonly owner: Element['owner'];
  readonly kind: FaultKind;
  /** "high resistance or open at X3.1 (left lamp connector)". */
  readonly label: string;
  readonly scale: Scale;
  readonly apply: (severity: number) => AppliedFault;
  /** Does its severity drift by itself and with meter current (contacts)? */
  readonly contact: boolean;
  /** Relative odds before any reading. */
  readonly weight: number;
  readonly repair: Repair;
  /** It sits in the housing of its part, so that a new item mends it though it belongs to the position. */
  readonly inHousing: boolean;
  /** Ohms below which no fuse would end its current, and it would burn; left out: none. */
  readonly burnsBelow?: number;
}

/** A contact that stays closed may join feed and ground, as in the reversing switch of a motor. */
const DRAWS_MORE: ReadonlySet<FaultKind> = new Set<FaultKind>([
  'short',
  'stuck',
  'wrong',
  'seized',
  'dragging',
  'leaking',
  'drifted',
  'touching',
  'crossed',
  'tapped',
]);

/** Can it draw more than a fuse stands? */
export function canBlow(fault: Fault): boolean {
  return DRAWS_MORE.has(fault.kind);
}
