/**
 * The parts a drawing may hold, each with the few numbers that stand on it or in a catalogue. What is not stated has been
 * filled in with the usual value by the time a part looks like this. Lighting, loads and everything plain; what switches is in
 * switching-parts.ts, electronics in electronic-parts.ts.
 */
import type { Alternator, CanPort, Module, ModuleInput, ModuleOutput } from './electronic-parts.js';
import type { PartBase, PartId } from './part-base.js';
import type {
  Breaker,
  Coupling,
  Flasher,
  FusibleLink,
  Relay,
  Sender,
  Switch,
  SwitchContact,
  Thermistor,
} from './switching-parts.js';

export type { PartBase, PartId };
export type { Alternator, CanPort, Module, ModuleInput, ModuleOutput };
export type { Breaker, Coupling, Flasher, FusibleLink, Relay, Sender, Switch, SwitchContact, Thermistor };

/** Terminals `30` (+) and `31` (−), DIN 72552. */
export interface Battery extends PartBase {
  readonly type: 'battery';
  /** Rested open-circuit volts. */
  readonly volts: number;
  /** Internal resistance, ohms. */
  readonly ohms: number;
}

/** Terminals `1` (feed) and `2`. */
export interface Fuse extends PartBase {
  readonly type: 'fuse';
  readonly amps: number;
}

export interface Filament {
  /** Feed terminal, the DIN number the circuit uses: `54`, `58`; `1` for a single-filament lamp. */
  readonly terminal: string;
  readonly watts: number;
  readonly volts: number;
}

/** Terminals: one per filament, and the common `31`. */
export interface Lamp extends PartBase {
  readonly type: 'lamp';
  readonly filaments: readonly Filament[];
}

/** Terminals `1` (+) and `31` (−); the wrong way round it stays dark. */
export interface LedLamp extends PartBase {
  readonly type: 'LED lamp';
  readonly watts: number;
  readonly volts: number;
}

/** Terminals `1` and `31`. */
export interface Horn extends PartBase {
  readonly type: 'horn';
  readonly amps: number;
  readonly volts: number;
}

/** Terminals `1` and `31`. */
export interface Buzzer extends PartBase {
  readonly type: 'buzzer';
  readonly amps: number;
  readonly volts: number;
}

/** Terminals `1` and `2`. */
export interface Motor extends PartBase {
  readonly type: 'motor';
  /** Running current at rated volts, amperes. */
  readonly amps: number;
  readonly volts: number;
  /** Current at rated volts with the shaft held fast, amperes. */
  readonly stallAmps: number;
  /** What it moves: chooses the cautions ("fan", "starter", "pump" …). */
  readonly drives: string;
}

/** Rear window, seat, mirror, glow plug: terminals `1` and `2`. */
export interface Heater extends PartBase {
  readonly type: 'heater';
  readonly amps: number;
  readonly volts: number;
}

/** A coil that moves something (valve, lock, starter engagement): terminals `1` and `2`. */
export interface Solenoid extends PartBase {
  readonly type: 'solenoid';
  readonly ohms: number;
  readonly volts: number;
}

/** Something of which only the power is known: terminals `1` and `31`. */
export interface UnknownLoad extends PartBase {
  readonly type: 'load';
  readonly amps: number;
  readonly volts: number;
}

/** Terminals `1` and `2`. */
export interface Resistor extends PartBase {
  readonly type: 'resistor';
  readonly ohms: number;
  /** ± part of the ohms. */
  readonly tolerance: number;
}

/** Several resistors in one housing (blower speeds). Terminals: those its resistors name. */
export interface ResistorPack extends PartBase {
  readonly type: 'resistor pack';
  readonly resistors: readonly { readonly between: readonly [string, string]; readonly ohms: number }[];
  readonly tolerance: number;
}

/** Terminals `A` (anode) and `K` (cathode). */
export interface Diode extends PartBase {
  readonly type: 'diode';
  readonly forwardVolts: number;
}

/** No terminals: wires end on the stud itself. */
export interface Ground extends PartBase {
  readonly type: 'ground';
  /** Metal that it is bolted to, where that is not the body itself (`trailer`); see Coupling. */
  readonly frame: string | undefined;
}

/** No terminals: wires end in the splice itself. */
export interface Splice extends PartBase {
  readonly type: 'splice';
}

/** In-line connector: each pin has a harness side (`h`) and a component side (`c`). */
export interface Connector extends PartBase {
  readonly type: 'connector';
  readonly pins: readonly string[];
}

export type Part =
  | Alternator
  | Battery
  | Breaker
  | Buzzer
  | Connector
  | Coupling
  | Diode
  | Flasher
  | Fuse
  | FusibleLink
  | Ground
  | Heater
  | Horn
  | Lamp
  | LedLamp
  | Module
  | Motor
  | Relay
  | Resistor
  | ResistorPack
  | Sender
  | Solenoid
  | Splice
  | Switch
  | Thermistor
  | UnknownLoad;

export type PartType = Part['type'];
