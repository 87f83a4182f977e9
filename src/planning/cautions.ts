/**
 * Cautions for a step, before it is done or recorded: for suggested tests and for those a person volunteers alike.
 * The program cannot see the vehicle; it reminds, and the maker's procedure goes first.
 */
import type { Circuit, Part, PointId } from '../circuit/circuit.js';
import type { Step } from '../session/case.js';
import type { Action, Event, Reading } from '../session/events.js';
import type { SetUp } from '../session/setup.js';
import { drawsLampCurrent } from '../session/test-lamp.js';
import { CAUTION_TEXTS, type CautionId } from './caution-texts.js';
import { jumperModuleCautions, testLampCautions } from './module-cautions.js';
import { mayBeLive, plainPoint, reachable } from './live-line.js';

export interface Caution {
  readonly id: CautionId;
  readonly text: string;
  /** Ask for a typed "yes" before going on. */
  readonly stop: boolean;
  /** Not to be recorded at all: the point is never to be probed, or the voltage is out of scope. */
  readonly refused: boolean;
}

/** Above this, volts d.c.: outside the program (limit from memory). */
const HIGH_VOLTS = 60;

/** What is known besides the set-up. */
export interface Before {
  /** What was done so far, for cautions that follow from the last test. */
  readonly timeline?: readonly Step[];
  /** Does the solved network put voltage between the two points? Left out = judged on the drawing, erring to "live". */
  readonly live?: boolean;
}

/**
 * What to be careful about in one event, the gravest first.
 * @param setUp the standing set-up before the event
 */
export function cautionsFor(
  circuit: Circuit,
  setUp: SetUp,
  event: Event,
  before: Before = {},
): readonly Caution[] {
  const ids = new Set<CautionId>();
  if (event.type === 'found' && event.evidence !== 'told') {
    for (const [control, position] of event.when ?? []) operating(circuit, setUp, control, position, ids);
    const controls = new Map([...setUp.controls, ...(event.when ?? [])]);
    aboutReading(circuit, { ...setUp, controls }, event.reading, before, ids);
  } else if (event.type === 'did') {
    aboutAction(circuit, setUp, event.action, ids);
  }
  if (circuit.nominalVolts > HIGH_VOLTS && (event.type === 'found' || event.type === 'did'))
    ids.add('high-voltage');
  return [...ids].map(cautionOf).sort((a, b) => weight(b) - weight(a));
}

function cautionOf(id: CautionId): Caution {
  const [kind, text] = CAUTION_TEXTS[id];
  return { id, text, stop: kind !== 'note', refused: kind === 'refuse' };
}

function weight(caution: Caution): number {
  return caution.refused ? 2 : caution.stop ? 1 : 0;
}

function aboutReading(
  circuit: Circuit,
  setUp: SetUp,
  reading: Reading,
  before: Before,
  ids: Set<CautionId>,
): void {
  if (reading.kind === 'load' || reading.kind === 'scan') return;
  if (reading.kind === 'fuse lamp') return atPoint(circuit, reading.part, ids);
  const points = 'red' in reading ? [reading.red, reading.black] : [reading.at];
  for (const point of points) {
    // A meter lead on a battery post makes no spark; said at every reading, the warning would no longer be read.
    if (partAt(circuit, point)?.type !== 'battery') atPoint(circuit, point, ids);
    if (reading.kind === 'look') continue;
    if (isNeverProbe(circuit, point)) ids.add('never-probe');
    if (isAirbagLine(circuit, point)) ids.add('airbag-line');
  }
  if (reading.kind === 'look') return;
  const value = 'value' in reading ? reading.value : undefined;
  if (reading.kind === 'volts' && typeof value === 'object' && Math.abs(value.value) > HIGH_VOLTS)
    ids.add('high-voltage');
  if (reading.kind === 'ohms' || reading.kind === 'continuity') {
    const live =
      before.live ??
      points.some((point) => !isItemSide(circuit, setUp, point) && mayBeLive(circuit, setUp, point));
    ids.add(live ? 'ohms-live' : 'ohms-dead');
  }
  if (reading.kind === 'clamp') return;
  if (reading.kind === 'amps') ids.add('amps-series');
  else if (reading.kind !== 'test lamp' && lastMeterTest(before.timeline ?? []) === 'amps')
    ids.add('meter-sockets');
  if (drawsLampCurrent(reading)) {
    const onModule = testLampCautions(circuit, setUp, points);
    for (const id of onModule.length > 0 ? onModule : (['test-lamp-modules'] as const)) ids.add(id);
  }
}

function aboutAction(circuit: Circuit, setUp: SetUp, action: Action, ids: Set<CautionId>): void {
  switch (action.do) {
    case 'operate':
      operating(circuit, setUp, action.control, action.position, ids);
      return;
    case 'engine':
      if (action.state === 'running') ids.add('engine-running');
      return;
    case 'unplug':
    case 'plug':
      atPoint(circuit, action.connector, ids);
      if (action.do === 'unplug' && setUp.engine === 'running') ids.add('fuse-engine');
      return;
    case 'take out':
    case 'refit':
    case 'fit new':
    case 'fit known-good':
      item(circuit, setUp, action.part, action.do, ids);
      return;
    case 'swap':
      for (const id of action.parts) item(circuit, setUp, id, 'swap', ids);
      return;
    case 'lamp in place':
    case 'remove lamp':
      atPoint(circuit, action.part, ids);
      if (action.do === 'lamp in place') ids.add('lamp-in-place');
      if (setUp.engine === 'running') ids.add('fuse-engine');
      return;
    case 'reset':
      atPoint(circuit, action.part, ids);
      ids.add('reset-once');
      return;
    case 'wait':
      return;
    case 'jumper':
      jumper(circuit, setUp, action.between, ids);
      return;
    case 'remove jumper':
      return;
    case 'clean':
    case 'tighten':
    case 'reseat':
    case 'wiggle':
    case 'repair':
      atPoint(circuit, action.at, ids);
      if (action.do === 'repair' && partAt(circuit, action.at)?.type === 'fuse') ids.add('fuse-rating');
      return;
  }
}

/** Stay hot after use. */
const HOT: ReadonlySet<string> = new Set(['lamp', 'heater', 'resistor pack']);

/** An item is taken out, put in or exchanged. */
function item(
  circuit: Circuit,
  setUp: SetUp,
  id: string,
  how: 'take out' | 'refit' | 'fit new' | 'fit known-good' | 'swap',
  ids: Set<CautionId>,
): void {
  atPoint(circuit, id, ids);
  const part = circuit.parts.get(id);
  if (part?.type === 'fuse' && how !== 'take out' && how !== 'refit') ids.add('fuse-rating');
  if (part !== undefined && HOT.has(part.type) && how !== 'refit') ids.add('hot');
  if (setUp.engine === 'running') ids.add(part?.type === 'battery' ? 'battery-engine' : 'fuse-engine');
}

function operating(circuit: Circuit, setUp: SetUp, id: string, position: string, ids: Set<CautionId>): void {
  const control = circuit.controls.get(id);
  // Back to rest takes no risk; neither does a control that stands there already.
  if (control?.risk === undefined || position === control.positions[0] || setUp.controls.get(id) === position)
    return;
  ids.add(`control-${control.risk}`);
}

function jumper(
  circuit: Circuit,
  setUp: SetUp,
  between: readonly [PointId, PointId],
  ids: Set<CautionId>,
): void {
  ids.add('jumper-fused');
  for (const point of between) {
    atPoint(circuit, point, ids);
    if (isNeverProbe(circuit, point)) ids.add('never-probe');
    if (isAirbagLine(circuit, point)) ids.add('airbag-line');
  }
  for (const id of jumperModuleCautions(circuit, setUp, between)) ids.add(id);
  const [one, other] = between.map((point) => plainPoint(circuit, point)) as [PointId, PointId];
  const feed = reachable(circuit, setUp, 'bat+', 'metal');
  const ground = reachable(circuit, setUp, 'bat-', 'metal');
  if ((feed.has(one) && ground.has(other)) || (feed.has(other) && ground.has(one))) {
    ids.add('jumper-short');
    return;
  }

  const woken = wokenBy(circuit, setUp, between);
  for (const part of circuit.parts.values()) {
    if (part.type === 'motor' && woken.has(part.id)) ids.add(motorRisk(part.drives));
    if (part.type === 'solenoid' && woken.has(part.id)) ids.add(motorRisk(part.label));
    if (part.type !== 'switch') continue;
    // Bridging a switch does what operating it would do.
    const bridged = [one, other].every((point) => point.startsWith(`${part.id}.`));
    const risk = bridged ? circuit.controls.get(part.control)?.risk : undefined;
    if (risk !== undefined)
      ids.add(risk === 'cranks' || risk === 'fuel' ? `jumper-${risk}` : 'jumper-motion');
  }
}

/** Parts that a jumper newly feeds or grounds, and what a relay among them would feed. */
function wokenBy(circuit: Circuit, setUp: SetUp, between: readonly [PointId, PointId]): ReadonlySet<string> {
  const bridged = { ...setUp, jumpers: [...setUp.jumpers, between] };
  const points = new Set<PointId>();
  // Once with relays as they may stand, once with all their contacts open: bridging a contact does what its relay would do.
  const relays = [...circuit.parts.values()].filter(({ type }) => type === 'relay').map(({ id }) => id);
  for (const out of [setUp.out, new Set([...setUp.out, ...relays])])
    for (const [start, through] of [
      ['bat+', 'any'],
      ['bat-', 'metal'],
    ] as const) {
      const before = reachable(circuit, { ...setUp, out }, start, through);
      for (const point of reachable(circuit, { ...bridged, out }, start, through))
        if (!before.has(point)) points.add(point);
    }
  const partOf = (point: PointId): string => point.split('.')[0]!;
  for (const id of new Set([...points].map(partOf))) {
    if (circuit.parts.get(id)?.type !== 'relay') continue;
    const without = { ...bridged, out: new Set([...bridged.out, id]) };
    const fed = reachable(circuit, without, 'bat+', 'metal');
    for (const contact of ['30', '87', '87a'].map((terminal) => `${id}.${terminal}`))
      if (!fed.has(contact))
        for (const point of reachable(circuit, without, contact, 'any')) points.add(point);
  }
  return new Set([...points].map(partOf));
}

function motorRisk(drives: string): CautionId {
  if (/start|crank/i.test(drives)) return 'jumper-cranks';
  if (/fuel|petrol|diesel/i.test(drives)) return 'jumper-fuel';
  return 'jumper-motion';
}

/** Cautions that come from being at a place or with a part, whatever is done there. */
function atPoint(circuit: Circuit, point: PointId, ids: Set<CautionId>): void {
  const wire = circuit.wires.find((candidate) => candidate.id === point);
  if (wire?.colour.startsWith('OG')) ids.add('orange-cable');
  const part = partAt(circuit, point);
  if (part === undefined) return;
  if (/ballast|discharge lamp|xenon/i.test(part.label)) ids.add('ballast');
  if (/horn ring|steering (column|wheel)|clock ?spring|airbag/i.test(part.label)) ids.add('airbag');
  if (part.type === 'battery') ids.add('battery-gas');
  const place = circuit.places.get(part.place);
  switch (place?.hazard) {
    case 'airbag':
      ids.add('airbag');
      break;
    case 'fan':
      ids.add('fan-key-off');
      break;
    case 'battery':
      ids.add('battery-gas');
      break;
    case 'roadside':
    case 'hot':
      ids.add(place.hazard);
      break;
    case undefined:
  }
}

/** The part a point, or `PART/wire` contact, belongs to. */
function partAt(circuit: Circuit, point: PointId): Part | undefined {
  const id = plainPoint(circuit, point).split(/[./:]/)[0]!;
  return circuit.parts.get(id);
}

function isNeverProbe(circuit: Circuit, point: PointId): boolean {
  const plain = plainPoint(circuit, point);
  if (circuit.neverProbe.has(point) || circuit.neverProbe.has(plain)) return true;
  if (partAt(circuit, point)?.neverProbe) return true;
  return circuit.wires.some(
    (wire) =>
      (wire.neverProbe || circuit.neverProbe.has(wire.id)) &&
      [wire.id, wire.from, wire.to].some((name) => name === point || name === plain) &&
      // A splice or a stud belongs to the other wires as well.
      !/^(splice|ground|battery)$/.test(partAt(circuit, point)?.type ?? ''),
  );
}

/** By its name: the drawing knows no such part type. */
function isAirbagLine(circuit: Circuit, point: PointId): boolean {
  const wire = circuit.wires.find((candidate) => candidate.id === point);
  const ends = wire === undefined ? [point] : [wire.from, wire.to];
  return ends.some((end) => /airbag|belt ?tensioner|pretensioner/i.test(partAt(circuit, end)?.label ?? ''));
}

/** The item's own terminals, once it is out, touch nothing. */
function isItemSide(circuit: Circuit, setUp: SetUp, point: PointId): boolean {
  return plainPoint(circuit, point) !== point && setUp.out.has(point.split('.')[0]!);
}

function lastMeterTest(timeline: readonly Step[]): Reading['kind'] | undefined {
  for (const step of [...timeline].reverse()) {
    if (step.kind !== 'finding') continue;
    const kind = step.finding.reading.kind;
    if (kind === 'volts' || kind === 'ohms' || kind === 'continuity' || kind === 'amps') return kind;
  }
  return undefined;
}
