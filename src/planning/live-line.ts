/**
 * Which points a healthy circuit can feed in a set-up, walked on the drawing alone.
 * For cautions only: it errs on the side of "live"; verdicts work on the solved network instead.
 */
import { terminalsOf, type Circuit, type Part, type PartId, type PointId } from '../circuit/circuit.js';
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

/**
 * Every point joined to `start` in this set-up. A walk that does not start at ground ends there.
 * @param until no further than this point is walked: the rest is not wanted once it is found
 */
export function reachable(
  circuit: Circuit,
  setUp: SetUp,
  start: PointId,
  through: Through,
  until?: PointId,
): ReadonlySet<PointId> {
  const { leads, studs } = wiringOf(circuit);
  const bridged: Leads = new Map();
  for (const [a, b] of setUp.jumpers) join(bridged, plainPoint(circuit, a), plainPoint(circuit, b));
  for (const part of circuit.parts.values()) {
    for (const [a, b] of bridgesOf(part, setUp, through)) join(bridged, `${part.id}.${a}`, `${part.id}.${b}`);
  }

  const fromGround = start === 'body' || start === 'bat-' || studs.has(start);
  const seen = new Set<PointId>([plainPoint(circuit, start)]);
  for (const point of seen) {
    if (point === until) break;
    // Ground joins everything: walking on from there would make the whole vehicle one line.
    if (studs.has(point) && !fromGround) continue;
    for (const { to, plug } of leads.get(point) ?? [])
      if (plug === undefined || !(setUp.unplugged.has(plug) || setUp.out.has(plug))) seen.add(to);
    for (const { to } of bridged.get(point) ?? []) seen.add(to);
  }
  return seen;
}

interface Lead {
  readonly to: PointId;
  /** The connector it passes through. */
  readonly plug?: PartId | undefined;
}
type Leads = Map<PointId, Lead[]>;

function join(leads: Leads, a: PointId, b: PointId, plug?: PartId): void {
  for (const [from, to] of [
    [a, b],
    [b, a],
  ] as const) {
    const known = leads.get(from);
    if (known === undefined) leads.set(from, [{ to, plug }]);
    else known.push({ to, plug });
  }
}

/** The drawing's own lines: wires, plugs and ground studs. */
interface Wiring {
  readonly leads: Leads;
  /** Body metal and the studs on it. */
  readonly studs: ReadonlySet<PointId>;
}

const wirings = new WeakMap<Circuit, Wiring>();

function wiringOf(circuit: Circuit): Wiring {
  const known = wirings.get(circuit);
  if (known !== undefined) return known;
  const leads: Leads = new Map();
  const studs = new Set<PointId>(['body']);
  for (const wire of circuit.wires) join(leads, wire.from, wire.to);
  for (const part of circuit.parts.values()) {
    if (part.type === 'connector')
      for (const pin of part.pins) join(leads, `${part.id}.${pin}h`, `${part.id}.${pin}c`, part.id);
    if (part.type !== 'ground') continue;
    join(leads, part.id, 'body');
    studs.add(part.id);
  }
  const wiring = { leads, studs };
  wirings.set(circuit, wiring);
  return wiring;
}

/**
 * What hangs at the battery's − side when a switch there parts it from body: through the loads its + side makes body live against it.
 * Nothing where the two are joined.
 */
export function liftedGround(circuit: Circuit, setUp: SetUp): ReadonlySet<PointId> {
  const minus = reachable(circuit, setUp, 'bat-', 'metal', 'body');
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
