/**
 * Which points a healthy circuit can feed in a set-up, walked on the drawing alone.
 * For cautions only: it errs on the side of "live"; verdicts work on the solved network instead.
 */
import type { Circuit, Part, PointId } from '../circuit/circuit.js';
import type { SetUp } from '../session/setup.js';

/** `metal`: only wires, joints, fuses and closed contacts. `any`: through loads and relays as well. */
export type Through = 'metal' | 'any';

/** A point without the item side's `i`, and the battery's posts under their terminal names. */
export function plainPoint(circuit: Circuit, point: PointId): PointId {
  if (point === 'bat+' || point === 'bat-') {
    const battery = [...circuit.parts.values()].find((part) => part.type === 'battery');
    return battery === undefined ? point : `${battery.id}.${point === 'bat+' ? '30' : '31'}`;
  }
  return /\.[^.]+i$/.test(point) ? point.slice(0, -1) : point;
}

/** Every point joined to `start` in this set-up. A walk that does not start at ground ends there. */
export function reachable(
  circuit: Circuit,
  setUp: SetUp,
  start: PointId,
  through: Through,
): ReadonlySet<PointId> {
  const edges = new Map<PointId, PointId[]>();
  const join = (a: PointId, b: PointId): void => {
    edges.set(a, [...(edges.get(a) ?? []), b]);
    edges.set(b, [...(edges.get(b) ?? []), a]);
  };
  for (const wire of circuit.wires) join(wire.from, wire.to);
  for (const [a, b] of setUp.jumpers) join(plainPoint(circuit, a), plainPoint(circuit, b));
  for (const part of circuit.parts.values()) {
    for (const [a, b] of bridgesOf(part, setUp, through)) join(`${part.id}.${a}`, `${part.id}.${b}`);
  }
  const studs = new Set<PointId>(['body']);
  for (const part of circuit.parts.values()) {
    if (part.type !== 'ground') continue;
    join(part.id, 'body');
    studs.add(part.id);
  }

  const fromGround = start === 'body' || start === 'bat-' || studs.has(start);
  const seen = new Set<PointId>([plainPoint(circuit, start)]);
  for (const point of seen) {
    // Ground joins everything: walking on from there would make the whole vehicle one line.
    if (studs.has(point) && !fromGround) continue;
    for (const next of edges.get(point) ?? []) seen.add(next);
  }
  return seen;
}

/** True when the battery's + side reaches the point, through loads or not, and the battery is connected. */
export function mayBeLive(circuit: Circuit, setUp: SetUp, point: PointId): boolean {
  const battery = [...circuit.parts.values()].find((part) => part.type === 'battery');
  if (battery === undefined || setUp.out.has(battery.id)) return false;
  if (point === 'body' || point === 'bat-') return false;
  return reachable(circuit, setUp, 'bat+', 'any').has(plainPoint(circuit, point));
}

function bridgesOf(part: Part, setUp: SetUp, through: Through): readonly (readonly [string, string])[] {
  if (setUp.out.has(part.id)) return [];
  switch (part.type) {
    case 'fuse':
      return [['1', '2']];
    case 'connector':
      return setUp.unplugged.has(part.id) ? [] : part.pins.map((pin) => [`${pin}h`, `${pin}c`] as const);
    case 'switch':
      return part.contacts
        .filter((contact) => contact.closed.includes(setUp.controls.get(part.control) ?? ''))
        .map((contact) => contact.between);
    case 'relay': {
      if (through === 'metal') return [];
      // A relay may stand either way: both contacts count.
      const contacts: (readonly [string, string])[] = [
        ['85', '86'],
        ['30', '87'],
      ];
      return part.changeOver ? [...contacts, ['30', '87a']] : contacts;
    }
    case 'motor':
    case 'resistor':
      return through === 'any' ? [['1', '2']] : [];
    case 'diode':
      return through === 'any' ? [['A', 'K']] : [];
    case 'horn':
      return through === 'any' ? [['1', '31']] : [];
    case 'lamp':
      return through === 'any' ? part.filaments.map((filament) => [filament.terminal, '31'] as const) : [];
    case 'battery':
    case 'ground':
    case 'splice':
      return [];
  }
}
