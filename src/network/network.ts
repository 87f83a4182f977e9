/**
 * The electrical network of a circuit: nodes, two-terminal elements and the names by which a person reaches them.
 * Node 0 is the battery's negative post (the reference of every solve), node 1 the body metal.
 *
 * Each contact that can go bad is an element of its own between the harness side and the item side of a terminal,
 * so that unplugging, taking out, corrosion and back-probing need no special case.
 */
import type { PartId, PointId } from '../circuit/circuit.js';

export const BATTERY_NEGATIVE = 0;
export const BODY = 1;

/**
 * Driven by a coil, which is any element whose volts decide: a relay's winding, the supply or an input of a module (an element
 * index). `rest` is the state with no coil voltage. Volts across the coil.
 *
 * `manner`, where it is no ordinary coil: `under` = it may count as pulled in at any time while the volts it would have when
 * dropped are below `pullInVolts`, and need not (a shut-down for want of load; with Infinity: for reasons the drawing does
 * not tell). `alternating` = it goes in and out by itself, slowly enough for the eye (a flasher).
 */
export interface CoilCond {
  readonly kind: 'coil';
  readonly coil: number;
  readonly pullInVolts: number;
  readonly dropOutVolts: number;
  readonly rest: 'open' | 'closed';
  readonly manner?: 'under' | 'alternating';
}

export type SingleCond =
  /** Closed while the control is in one of these positions. */
  | { readonly kind: 'control'; readonly control: string; readonly positions: ReadonlySet<string> }
  | { readonly kind: 'engine'; readonly state: 'off' | 'running' }
  /** Before, or from, so many minutes of rest. */
  | { readonly kind: 'rested'; readonly minutes: number; readonly state: 'before' | 'after' }
  | CoilCond;

/** When a contact is closed: in this one condition, or while all of these hold. */
export type Cond = SingleCond | { readonly kind: 'all'; readonly of: readonly SingleCond[] };

/** A contact that, while its condition holds, is closed for a part of the time only, too fast for eye and meter. */
export interface Duty {
  /** Part of the time, 0 to 1, and its band. */
  readonly part: number;
  readonly low: number;
  readonly high: number;
}

/**
 * What an element does. Bands are the edges of its tolerance; the plain value is nominal. Ohms, volts, amperes.
 *
 * `curve`: I = amps·(|V|/volts)^exponent above `knee`·volts. Below the knee the resistance runs in a straight line in
 * |V| from `cold` × the rated resistance (volts/amps) at zero volts up to its value at the knee, so the current is
 * continuous and rising. A filament has exponent 0.55; a running motor 0.3. `coldLow`/`coldHigh` are the band of `cold`;
 * `spread` is the ± fraction of `amps`.
 *
 * `diode`: conducts from a to b. I = (V − forwardVolts)/ohms above forwardVolts, else V × 1 nS. `spread`: ± volts of forwardVolts.
 *
 * `source`: emf from a (−) to b (+) with internal ohms. `fuse`: opens for good above its amps (see fuse-rule.ts).
 */
export type Law =
  | { readonly kind: 'ohms'; readonly ohms: number; readonly low: number; readonly high: number }
  | {
      readonly kind: 'curve';
      readonly volts: number;
      readonly amps: number;
      readonly exponent: number;
      readonly knee: number;
      readonly cold: number;
      readonly coldLow: number;
      readonly coldHigh: number;
      readonly spread: number;
    }
  | { readonly kind: 'diode'; readonly forwardVolts: number; readonly ohms: number; readonly spread: number }
  | {
      readonly kind: 'source';
      readonly volts: number;
      readonly lowVolts: number;
      readonly highVolts: number;
      readonly ohms: number;
    }
  | {
      readonly kind: 'contact';
      readonly ohms: number;
      readonly low: number;
      readonly high: number;
      readonly closed: Cond;
      readonly duty?: Duty;
    }
  | {
      readonly kind: 'fuse';
      readonly ohms: number;
      readonly low: number;
      readonly high: number;
      readonly amps: number;
      /**
       * What closes it again, if anything: by itself after a while, somebody's hand, or (an electronic fuse) a reset or a lost
       * supply. Left out = it has melted.
       */
      readonly resets?: 'automatic' | 'manual' | 'electronic';
    };

export interface Element {
  /** Position in `Network.elements`. */
  readonly index: number;
  /** Name of the place a fault can sit: `W3`, `F4.2` (contact), `F4:link`, `S1:1-2`, `K1:coil`, `H1:54`, `GP1/W7` … */
  readonly site: string;
  /** The part or wire it belongs to. */
  readonly part: PartId;
  /** Joints stay with the position, filaments and coils go with the item (design: a swap exchanges items). */
  readonly owner: 'item' | 'position' | 'wire';
  readonly a: number;
  readonly b: number;
  readonly law: Law;
}

/** `relay` and `solenoid` are listened to; `load` is one of which the drawing knows only the watts. */
export type LoadKind = 'lamp' | 'LED' | 'horn' | 'motor' | 'relay' | 'solenoid' | 'heater' | 'load';

/** A load as a person watches it. */
export interface Load {
  /** `H1`, `H1.54`, `B1`, `K1`. */
  readonly id: string;
  readonly part: PartId;
  readonly kind: LoadKind;
  /** The element that lights, sounds, turns or pulls. Its own voltage over its rated volts says how well. */
  readonly element: number;
  readonly ratedVolts: number;
}

/** What a scan tool can ask a module for. */
export interface Scan {
  /** `M1.2`: module and input terminal. */
  readonly id: string;
  readonly part: PartId;
  readonly input: string;
  /** Element between the input and the module's ground: its volts are what the module judges. */
  readonly element: number;
  /** Coil element of its supply, one of `Network.coils`: the module answers only while it is pulled in. */
  readonly supply: number;
  /** From `highVolts` on it surely counts as high, up to `lowVolts` as low. */
  readonly highVolts: number;
  readonly lowVolts: number;
  /** What the tool shows: a word per state, or plain volts. */
  readonly reads: { readonly high: string; readonly low: string } | 'volts';
}

export interface Network {
  /** Index = node. */
  readonly nodeNames: readonly string[];
  readonly elements: readonly Element[];
  readonly points: ReadonlyMap<PointId, number>;
  readonly loads: ReadonlyMap<string, Load>;
  /** By `M1.2`; left out = the drawing has no module. */
  readonly scans?: ReadonlyMap<string, Scan>;
  /** Site name to element. */
  readonly sites: ReadonlyMap<string, number>;
  /** Indices of `fuse` elements, in order: bit i of a blown mask is fuses[i]. */
  readonly fuses: readonly number[];
  /** Indices of the coils of contacts (see CoilCond), in order: bit i of a pulled-in mask is coils[i]. */
  readonly coils: readonly number[];
}
