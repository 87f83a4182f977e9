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
  /** Whose item sits at a position: another part of the same kind (swapped), or one known to be good. Not listed = its own. */
  readonly fitted: ReadonlyMap<PartId, PartId | typeof KNOWN_GOOD>;
  /** Fuses in whose place a test lamp hangs; the fuse itself is out. */
  readonly lamps: ReadonlySet<PartId>;
  /** Minutes the vehicle has been left alone, everything off: electronics go to sleep. */
  readonly rested: number;
}

/** Stands for an item that was shown or bought good. */
export const KNOWN_GOOD = 'known-good';

/** Everything plugged and fitted, every control at rest, engine off. */
export function atRest(circuit: Circuit): SetUp {
  return {
    controls: new Map([...circuit.controls.values()].map((control) => [control.id, control.positions[0]!])),
    engine: 'off',
    unplugged: new Set(),
    out: new Set(),
    jumpers: [],
    fitted: new Map(),
    lamps: new Set(),
    rested: 0,
  };
}

/** Alike in everything that a reading may hang on. */
export function sameSetUp(a: SetUp, b: SetUp): boolean {
  return (
    a.engine === b.engine &&
    a.jumpers.length === b.jumpers.length &&
    a.jumpers.every((jumper, i) => jumper.join() === b.jumpers[i]!.join()) &&
    sameSet(a.unplugged, b.unplugged) &&
    sameSet(a.out, b.out) &&
    sameSet(a.lamps, b.lamps) &&
    a.rested === b.rested &&
    a.fitted.size === b.fitted.size &&
    [...a.fitted].every(([position, item]) => b.fitted.get(position) === item) &&
    [...a.controls].every(([control, position]) => b.controls.get(control) === position)
  );
}

function sameSet(a: ReadonlySet<string>, b: ReadonlySet<string>): boolean {
  return a.size === b.size && [...a].every((name) => b.has(name));
}
