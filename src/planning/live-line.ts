/**
 * Which points a healthy circuit can feed in a set-up, walked on the drawing alone.
 * For cautions only: it errs on the side of "live"; verdicts work on the solved network instead.
 */
import { terminalsOf, type Circuit, type Part, type PointId } from '../circuit/circuit.js';
import type { SetUp } from '../session/setup.js';

/** `line`: only wires, joints and plugged connectors. `metal`: fuses and closed contacts as well. `any`: also loads and relays. */
export type Through = 'line' | 'metal' | 'any';

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

/**
 * What hangs at the battery's − side when a switch there parts it from body: through the loads its + side makes body live against it.
 * Nothing where the two are joined.
 */
export function liftedGround(circuit: Circuit, setUp: SetUp): ReadonlySet<PointId> {
  const minus = reachable(circuit, setUp, 'bat-', 'metal');
  return minus.has('body') ? new Set() : minus;
}

/** True when a connected battery's + side, or a turning alternator, reaches the point, through loads or not. */
export function mayBeLive(circuit: Circuit, setUp: SetUp, point: PointId): boolean {
  if (point === 'body') return false;
  const plain = plainPoint(circuit, point);
  return [...circuit.parts.values()].some((part) => {
    if (setUp.out.has(part.id)) return false;
    if (part.type === 'battery')
      return (
        (point !== 'bat-' && reachable(circuit, setUp, 'bat+', 'any').has(plain)) ||
        liftedGround(circuit, setUp).has(plain)
      );
    const charging = part.type === 'alternator' && setUp.engine === 'running';
    return charging && reachable(circuit, setUp, `${part.id}.B+`, 'any').has(plain);
  });
}

function bridgesOf(part: Part, setUp: SetUp, through: Through): readonly (readonly [string, string])[] {
  if (setUp.lamps.has(part.id)) return through === 'any' ? [['1', '2']] : [];
  if (setUp.out.has(part.id)) return [];
  if (part.type === 'connector')
    return setUp.unplugged.has(part.id) ? [] : part.pins.map((pin) => [`${pin}h`, `${pin}c`] as const);
  if (through === 'line') return [];
  switch (part.type) {
    case 'fuse':
    case 'fusible link':
    case 'breaker':
      return [['1', '2']];
    case 'switch':
      return part.contacts
        .filter((contact) => contact.closed.includes(setUp.controls.get(part.control) ?? ''))
        .map((contact) => contact.between);
    default:
      return through === 'any' ? throughLoad(part) : [];
  }
}

/** Loads, and what may stand either way: all of it counts. */
function throughLoad(part: Part): readonly (readonly [string, string])[] {
  switch (part.type) {
    case 'relay': {
      const contacts: (readonly [string, string])[] = [
        ['85', '86'],
        ['30', '87'],
      ];
      return part.changeOver ? [...contacts, ['30', '87a']] : contacts;
    }
    case 'flasher':
      return [['49', '49a']];
    case 'motor':
    case 'heater':
    case 'solenoid':
    case 'resistor':
    case 'sender':
    case 'thermistor':
      return [['1', '2']];
    case 'resistor pack':
      return part.resistors.map(({ between }) => between);
    case 'diode':
      return [['A', 'K']];
    case 'horn':
    case 'buzzer':
    case 'load':
    case 'LED lamp':
      return [['1', '31']];
    case 'lamp':
      return part.filaments.map((filament) => [filament.terminal, '31'] as const);
    case 'module':
      return terminalsOf(part)
        .filter((terminal) => terminal !== part.ground && terminal !== part.supply)
        .map((terminal) => [part.supply, terminal] as const);
    case 'alternator':
      return part.terminals.includes('D+') ? [['B+', 'D+']] : [];
    default:
      return [];
  }
}
