/** Parts that switch or protect: by hand, by a coil, by too much current, by heat or level. */
import type { PartBase } from './part-base.js';

/** A length of thin wire that melts: terminals `1` (feed) and `2`. */
export interface FusibleLink extends PartBase {
  readonly type: 'fusible link';
  readonly amps: number;
}

/** Terminals `1` (feed) and `2`. */
export interface Breaker extends PartBase {
  readonly type: 'breaker';
  readonly amps: number;
  /** `automatic`: cools and closes again by itself. */
  readonly reset: 'automatic' | 'manual';
}

/** A contact of a switch: its two terminals and the control positions in which it is closed. */
export interface SwitchContact {
  readonly between: readonly [string, string];
  readonly closed: readonly string[];
}

/** Terminals: those its contacts name. A change-over switch is two contacts that share a terminal; several poles are several contacts. */
export interface Switch extends PartBase {
  readonly type: 'switch';
  readonly control: string;
  readonly contacts: readonly SwitchContact[];
}

/** Terminals `85`, `86` (coil), `30`, `87` and, for a change-over relay, `87a`. A contactor is one with few contact ohms. */
export interface Relay extends PartBase {
  readonly type: 'relay';
  readonly coilOhms: number;
  /** At or above this coil voltage it surely pulls in. */
  readonly pullInVolts: number;
  /** At or below this coil voltage it surely drops out. */
  readonly dropOutVolts: number;
  readonly changeOver: boolean;
  /** Ohms of a good closed contact, where the file states them. */
  readonly contactOhms: number | undefined;
}

/** Terminals `49` (feed), `49a` (to the lamps) and, for an electronic one, `31`. */
export interface Flasher extends PartBase {
  readonly type: 'flasher';
  readonly terminals: readonly string[];
}

/** One position of a sender: what it stands for is a control of the circuit, its ohms are between `1` and `2`. */
export interface SenderPosition {
  readonly position: string;
  readonly ohms: number;
}

/** A variable resistor moved by a level, a pressure, a pedal: terminals `1` and `2`. */
export interface Sender extends PartBase {
  readonly type: 'sender';
  readonly control: string;
  readonly positions: readonly SenderPosition[];
  /** ± part of the ohms. */
  readonly tolerance: number;
}

/** A resistor that answers to temperature, which a control stands for: terminals `1` and `2`. */
export interface Thermistor extends PartBase {
  readonly type: 'thermistor';
  readonly control: string;
  readonly positions: readonly SenderPosition[];
  readonly tolerance: number;
}

/**
 * Metal that may or may not conduct between a frame and the body while the control stands in one of these positions: ball and
 * socket of a tow bar, hinge, tipping bearing. No terminals.
 */
export interface Coupling extends PartBase {
  readonly type: 'coupling';
  readonly frame: string;
  readonly control: string;
  readonly closed: readonly string[];
}
