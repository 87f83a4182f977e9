/**
 * A circuit file as written, after the schema and before the rules. Every scalar is still the text of the file, so that
 * `30`, `1.0` and `on` mean what a person sees. Absent = left out. See schema.ts for the published form of the same.
 */
import type { PartType } from './circuit.js';
import type { CostsDocument } from './costs.js';

export interface CircuitDocument {
  readonly circuit: string;
  readonly title: string;
  readonly about?: string;
  readonly nominal: string;
  readonly controls?: Readonly<Record<string, ControlDocument>>;
  readonly places: Readonly<Record<string, PlaceDocument>>;
  readonly parts: Readonly<Record<string, PartDocument>>;
  readonly wires: readonly WireDocument[];
  readonly 'never-probe'?: readonly string[];
  readonly costs?: CostsDocument;
}

export type ControlDocument =
  | readonly string[]
  | { readonly positions: readonly string[]; readonly risk?: string; readonly helper?: string };

export type PlaceDocument = string | { readonly open: string; readonly hazard?: string };

/** A place where faults are known to be likelier than elsewhere. */
export interface WeakSpotDocument {
  readonly times: string;
  readonly why: string;
}

/** All keys a part may have; which go with which type is the schema's business. */
export interface PartDocument {
  readonly type: PartType;
  readonly name?: string;
  readonly place: string;
  readonly price?: string;
  readonly 'never-probe'?: string;
  /** Name of an entry of the part catalogue (catalogue.ts). */
  readonly catalogue?: string;
  readonly 'weak spot'?: WeakSpotDocument;
  readonly volts?: string;
  /** By position of the control for senders and thermistors. */
  readonly ohms?: string | Readonly<Record<string, string>>;
  readonly rating?: string;
  readonly control?: string;
  readonly contacts?: readonly {
    readonly between: readonly [string, string];
    readonly closed: string | readonly string[];
  }[];
  readonly coil?: string;
  readonly 'pull-in'?: string;
  readonly 'drop-out'?: string;
  readonly 'change-over'?: string;
  readonly contact?: string;
  readonly reset?: string;
  readonly terminals?: readonly string[];
  readonly closed?: string | readonly string[];
  readonly frame?: string;
  readonly watts?: string;
  readonly filaments?: Readonly<Record<string, string>>;
  readonly amps?: string;
  readonly drives?: string;
  readonly stall?: string;
  readonly tolerance?: string;
  readonly resistors?: readonly { readonly between: readonly [string, string]; readonly ohms: string }[];
  readonly forward?: string;
  readonly pins?: string | readonly string[];
  readonly standard?: string;
  readonly supply?: string;
  readonly ground?: string;
  readonly reference?: string;
  readonly inputs?: Readonly<Record<string, InputDocument>>;
  readonly outputs?: Readonly<Record<string, OutputDocument>>;
  readonly can?: { readonly high: string; readonly low: string; readonly terminator?: string };
  readonly sleep?: string;
  readonly awake?: string;
  readonly asleep?: string;
}

export interface InputDocument {
  readonly pull?: 'up' | 'down' | 'reference';
  readonly ohms?: string;
  readonly high?: string;
  readonly low?: string;
  readonly reads?: string | { readonly high: string; readonly low: string };
}

export interface OutputDocument {
  readonly side: 'high' | 'low';
  readonly on?: Readonly<Record<string, 'high' | 'low'>>;
  readonly duty?: string;
  readonly flashes?: string;
  readonly limit?: string;
  readonly 'open-load'?: string;
  readonly 'pull-up'?: string;
  readonly 'test pulses'?: string;
}

export interface WireDocument {
  readonly from: string;
  readonly to: string;
  readonly size: string;
  readonly length: string;
  readonly colour?: string;
  readonly bundle?: string;
  readonly id?: string;
  readonly 'never-probe'?: string;
  readonly 'weak spot'?: WeakSpotDocument;
}
