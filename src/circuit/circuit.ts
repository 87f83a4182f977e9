/**
 * A checked circuit: what a circuit file means once every rule has passed.
 * Everything downstream (network, diagnosis, report) reads only this.
 */

import type { GivenCosts } from './costs.js';
import type { WeakSpot } from './part-base.js';
import type { Part, PartId } from './parts.js';

export type * from './parts.js';
export type { WeakSpot };
export { calledOf, loadsOf, terminalsOf } from './terminals.js';

/**
 * The name of a place where a probe can go:
 * `F4.2` (harness side of a terminal), `F4.2i` (the same terminal on the item itself, for a part taken out),
 * `X3.1h` / `X3.1c` (harness and component side of a connector pin), `GP1` (ground stud), `SP2` (splice),
 * `bat+` / `bat-` (the battery posts), `body` (bare body metal), `trailer` (bare metal of a frame of its own).
 */
export type PointId = string;

export interface Circuit {
  readonly id: string;
  readonly title: string;
  /** One plain paragraph for the person who opens the circuit. */
  readonly about: string;
  /** System voltage: 6, 12, 24 … volts. */
  readonly nominalVolts: number;
  readonly controls: ReadonlyMap<string, Control>;
  readonly places: ReadonlyMap<string, Place>;
  readonly parts: ReadonlyMap<PartId, Part>;
  readonly wires: readonly Wire[];
  /** Points and wires nobody may probe (airbag lines, data lines), as written in the file. */
  readonly neverProbe: ReadonlySet<string>;
  /** What steps cost on this vehicle, minutes; left out = the usual. */
  readonly costs?: GivenCosts;
}

/** Anything a person operates: pedal, key, lever. */
export interface Control {
  readonly id: string;
  /** At least two; the first is the position at rest. */
  readonly positions: readonly string[];
  /** What operating it may do beyond this circuit; chooses the cautions that are shown. */
  readonly risk: ControlRisk | undefined;
  /** True where one person cannot hold it and probe at the same time. */
  readonly helper: boolean;
}

export type ControlRisk = 'motion' | 'cranks' | 'fuel' | 'fan';

/** Where you must be to reach something. */
export interface Place {
  readonly id: string;
  /** Minutes to open it the first time. */
  readonly minutes: number;
  readonly hazard: PlaceHazard | undefined;
}

/** Chooses the cautions shown before working there. */
export type PlaceHazard = 'airbag' | 'fan' | 'roadside' | 'battery' | 'hot';

export interface Wire {
  /** As written, or `W1`, `W2` … in file order. */
  readonly id: string;
  readonly from: PointId;
  readonly to: PointId;
  /** Conductor cross-section, mm² (AWG sizes already converted). */
  readonly mm2: number;
  readonly metres: number;
  /** IEC 60757 letters, or empty. */
  readonly colour: string;
  /** Name of the loom it runs in, or empty. */
  readonly bundle: string;
  readonly neverProbe: boolean;
  readonly weakSpot?: WeakSpot | undefined;
}
