/** Where a person may put a probe or lay a hand: not at airbags, not where the drawing says never to probe. */
import type { Circuit, Part, PointId } from '../circuit/circuit.js';
import { terminalsOf } from '../circuit/circuit.js';

/** Why a part or point is left alone. */
export type OutOfReach = 'never to be probed' | 'beside an airbag';

/** Undefined = it may be probed. `point`: a probe point, a part or a wire. */
export function outOfReach(circuit: Circuit, point: string): OutOfReach | undefined {
  const wire = circuit.wires.find((candidate) => candidate.id === point);
  if (wire !== undefined) {
    if (wire.neverProbe || circuit.neverProbe.has(wire.id)) return 'never to be probed';
    return outOfReach(circuit, wire.from) ?? outOfReach(circuit, wire.to);
  }
  if (circuit.neverProbe.has(point)) return 'never to be probed';
  const part = circuit.parts.get(point.split('.')[0]!);
  if (part === undefined) return undefined;
  if (part.neverProbe || circuit.neverProbe.has(part.id)) return 'never to be probed';
  if (circuit.places.get(part.place)?.hazard === 'airbag') return 'beside an airbag';
  // A splice, a stud or a battery post belongs to other wires as well.
  if (part.type === 'splice' || part.type === 'ground' || part.type === 'battery') return undefined;
  const forbidden = circuit.wires.some(
    (candidate) =>
      (candidate.neverProbe || circuit.neverProbe.has(candidate.id)) &&
      (candidate.from === point || candidate.to === point),
  );
  return forbidden ? 'never to be probed' : undefined;
}

/** Every point at which a plugged and fitted part can be probed from outside, reachable or not. */
export function pointsAt(part: Part): readonly PointId[] {
  if (part.type === 'connector')
    return part.pins.flatMap((pin) => [`${part.id}.${pin}h`, `${part.id}.${pin}c`]);
  if (part.type === 'battery')
    return ['bat+', ...terminalsOf(part).map((terminal) => `${part.id}.${terminal}`)];
  if (part.type === 'ground' || part.type === 'splice') return [part.id];
  return terminalsOf(part).map((terminal) => `${part.id}.${terminal}`);
}
