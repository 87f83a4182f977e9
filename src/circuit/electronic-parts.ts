/** The alternator and electronic modules. What a file leaves unsaid of a module may be either way and rules nothing out. */
import type { PartBase } from './part-base.js';

/** Terminals `B+` (output) and, where stated, `31` (housing) and `D+` (charge lamp and field). */
export interface Alternator extends PartBase {
  readonly type: 'alternator';
  /** Rated output, amperes. */
  readonly amps: number;
  /** What its regulator holds at `B+`, volts. */
  readonly volts: number;
  /** `B+`, `31`, `D+`. Without `31` the housing is bolted to the body. */
  readonly terminals: readonly string[];
}

export interface ModuleInput {
  readonly terminal: string;
  /** Through its own resistor the module pulls the input up to its supply, up to its 5 V reference, or down to its ground. */
  readonly pull: 'up' | 'reference' | 'down' | undefined;
  /** Of that resistor. */
  readonly pullOhms: number;
  /** At or above this it surely counts as high, at or below `lowVolts` as low; volts against the module's ground. */
  readonly highVolts: number;
  readonly lowVolts: number;
  /** What a scan tool reports: a word per state, plain volts, or nothing known. */
  readonly reads: { readonly high: string; readonly low: string } | 'volts' | undefined;
}

export interface ModuleOutput {
  readonly terminal: string;
  /** `high`: joins the terminal to the supply; `low`: to the module's ground. */
  readonly side: 'high' | 'low';
  /** On while all these inputs stand so; undefined = the file does not say, so at any time. */
  readonly on: readonly { readonly input: string; readonly state: 'high' | 'low' }[] | undefined;
  /** While on, closed for this part of the time; 1 = all the time. */
  readonly duty: number;
  /** Goes on and off slowly enough for the eye. */
  readonly flashes: boolean;
  /** Shuts down at this current until it is reset or the supply is lost, amperes. */
  readonly limitAmps: number | undefined;
  /** May shut down below this current, amperes. */
  readonly openLoadAmps: number | undefined;
  /** Resistor to the supply with which the module looks for the load while it is off. */
  readonly pullUpOhms: number | undefined;
  /** Closes for moments while off, to look for the load. */
  readonly testPulses: boolean;
}

export interface CanPort {
  readonly high: string;
  readonly low: string;
  /** Of the terminating resistor inside, ohms; undefined = none. */
  readonly terminatorOhms: number | undefined;
}

/** Terminals: supply, ground, reference, inputs, outputs, CAN, in this order, under the names the file gives them. */
export interface Module extends PartBase {
  readonly type: 'module';
  readonly supply: string;
  readonly ground: string;
  /** Output of the 5 V reference for sensors. */
  readonly reference: string | undefined;
  readonly inputs: readonly ModuleInput[];
  readonly outputs: readonly ModuleOutput[];
  readonly can: CanPort | undefined;
  /** Minutes of rest after which it surely sleeps; never: awake as long as it is fed; undefined = it does not say. */
  readonly sleepMinutes: number | 'never' | undefined;
  /** Own draw at nominal volts, amperes. */
  readonly awakeAmps: number;
  readonly asleepAmps: number;
}
