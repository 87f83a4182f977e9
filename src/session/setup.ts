/**
 * A set-up: the conditions in which a reading is taken. A reading proves something only about its own set-up.
 */
import type { Circuit, PartId, PointId } from '../circuit/circuit.js';

export interface SetUp {
  /** Position of every control of the circuit. */
  readonly controls: ReadonlyMap<string, string>;
  readonly engine: 'off' | 'running';
  /** Connectors whose two sides are apart. */
  readonly unplugged: ReadonlySet<PartId>;
  /** Parts whose item is taken out of its position (fuse pulled, lamp out). */
  readonly out: ReadonlySet<PartId>;
  /** Parts bridged or tested by something added. */
  readonly jumpers: readonly (readonly [PointId, PointId])[];
}

/** Everything plugged and fitted, every control at rest, engine off. */
export function atRest(circuit: Circuit): SetUp {
  return {
    controls: new Map([...circuit.controls.values()].map((control) => [control.id, control.positions[0]!])),
    engine: 'off',
    unplugged: new Set(),
    out: new Set(),
    jumpers: [],
  };
}
