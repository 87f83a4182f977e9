/**
 * What must never be suggested, reviewed by hand, judged on the healthy vehicle by the solver and by walks over the network, not by the
 * program's own cautions. All common practice, no source, where nothing else is said.
 */
import type { Circuit, Part } from '../../src/circuit/circuit.js';
import { standingOf } from '../../src/diagnosis/evidence.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { sourceElement } from '../../src/network/conditions.js';
import type { Candidate } from '../../src/planning/candidate.js';
import { islands } from '../../src/planning/islands.js';
import { partsOf } from '../../src/planning/changes.js';
import { actionsBetween } from '../../src/planning/changes.js';
import type { SetUp } from '../../src/session/setup.js';
import { atRest } from '../../src/session/setup.js';

/** Volts at which a line counts as live for an ohmmeter. */
const LIVE = 0.5;
/** Amperes that a fused jumper of 5 A would not bear. */
const MUCH = 20;
const MOVES: ReadonlySet<string> = new Set(['motor', 'solenoid']);

/** Why it is dangerous; undefined: it is not. */
export function dangerOf(
  bench: Workbench,
  candidate: Pick<Candidate, 'reading' | 'setUp' | 'wiggle'>,
): string | undefined {
  const { circuit } = bench;
  const { reading, setUp, wiggle } = candidate;
  const actions = [...actionsBetween(atRest(circuit), setUp), ...(wiggle === undefined ? [] : [wiggle])];
  const points = 'red' in reading ? [reading.red, reading.black] : 'at' in reading ? [reading.at] : [];
  const touched = [...points, ...actions.flatMap(partsOf)];
  if (touched.some((name) => isForbidden(circuit, name)))
    return 'touches an airbag line or one never to be probed';
  if (reading.kind === 'amps') return 'an ammeter in line: through a starter or charging cable it burns';
  const apart =
    setUp.unplugged.size + setUp.out.size + setUp.fitted.size + setUp.lamps.size + setUp.jumpers.length;
  if (setUp.engine === 'running' && apart > 0) return 'parted, exchanged or bridged with the engine running';
  if (
    (reading.kind === 'ohms' || reading.kind === 'continuity') &&
    points.some((point) => isLive(bench, setUp, point))
  )
    return 'ohms on a live line';
  if (reading.kind === 'test lamp' && points.some((point) => isSignal(bench, setUp, point)))
    return 'a test lamp on a signal line of a module';
  for (const ends of setUp.jumpers) {
    const danger = jumperDanger(bench, setUp, ends);
    if (danger !== undefined) return danger;
  }
  return undefined;
}

function isForbidden(circuit: Circuit, name: string): boolean {
  const part = partOf(circuit, name);
  if (circuit.neverProbe.has(name)) return true;
  if (part === undefined) return false;
  return (
    part.neverProbe ||
    circuit.places.get(part.place)?.hazard === 'airbag' ||
    /airbag|tensioner|clock ?spring/i.test(part.label)
  );
}

function partOf({ parts, wires }: Circuit, name: string): Part | undefined {
  const end = wires.find(({ id }) => id === name)?.from ?? name;
  return parts.get(end.split('.')[0]!);
}

/** Volts of the healthy vehicle against body, where anything but its leaks joins the point to the battery. */
function isLive(bench: Workbench, setUp: SetUp, point: string): boolean {
  if (point === 'body' || setUp.out.has(point.split('.')[0]!)) return false;
  const { network } = bench;
  const { volts, added, variant } = healthyState(bench, setUp);
  const node = network.points.get(point)!;
  if (Math.abs(volts.volts[node]! - volts.volts[network.points.get('body')!]!) <= LIVE) return false;
  // A stretch that nothing joins to the battery shows what its leaks make of it, and drives no current.
  const piece = islands(network, variant, volts, added);
  return ['bat+', 'bat-'].some((post) => piece[network.points.get(post)!] === piece[node]);
}

function healthy(bench: Workbench, setUp: SetUp): Float64Array {
  return healthyState(bench, setUp).volts.volts;
}

function healthyState(bench: Workbench, setUp: SetUp) {
  const { added, present, source } = standingOf(bench, setUp);
  const base = { kind: 'law', element: sourceElement(bench.network), law: source } as const;
  const variant = { present, faults: [base], blown: 0 };
  return { volts: bench.solver(added).solve(variant).at(-1)!, added, variant };
}

function jumperDanger(
  bench: Workbench,
  setUp: SetUp,
  [one, other]: readonly [string, string],
): string | undefined {
  const { circuit, network } = bench;
  const types = [one, other].map((point) => partOf(circuit, point)?.type);
  if (types.includes('battery')) return 'a jumper on a battery post';
  if (types.includes('fuse') && one.split('.')[0] === other.split('.')[0]) return 'a jumper over a fuse';
  for (const { element } of network.loads.values()) {
    const { a, b } = network.elements[element]!;
    const nodes = [one, other].map((point) => network.points.get(point)!);
    if (nodes.includes(a) && nodes.includes(b)) return 'a jumper across a load';
  }
  if ([one, other].some((point) => isSignal(bench, setUp, point)))
    return 'a jumper on a signal line of a module';
  const [without, bridged] = [healthy(bench, { ...setUp, jumpers: [] }), healthy(bench, setUp)];
  for (const { element } of network.loads.values()) {
    const { a, b, part } = network.elements[element]!;
    if (!MOVES.has(circuit.parts.get(part)!.type)) continue;
    if (Math.abs(bridged[a]! - bridged[b]!) > 2 && Math.abs(without[a]! - without[b]!) < 1)
      return `a jumper that starts ${part}`;
  }
  const [from, to] = [network.points.get('bat+')!, network.points.get('bat-')!];
  const drop = Math.abs(without[from]! - without[to]!) - Math.abs(bridged[from]! - bridged[to]!);
  return drop > MUCH * 0.01 ? 'a jumper that shorts the battery' : undefined;
}

/** Joined by wires, pins and splices alone to a terminal of a module that is neither its supply nor its ground. */
function isSignal(bench: Workbench, setUp: SetUp, point: string): boolean {
  const { circuit, network } = bench;
  const present = bench.presence(setUp);
  const start = network.points.get(point);
  if (start === undefined) return false;
  const seen = new Set([start]);
  for (const node of seen)
    for (const { index, a, b, law, part } of network.elements) {
      if (
        present[index] === 0 ||
        law.kind !== 'ohms' ||
        law.ohms > 1 ||
        circuit.parts.get(part)?.type === 'battery'
      )
        continue;
      if (a === node) seen.add(b);
      if (b === node) seen.add(a);
    }
  if (seen.has(network.points.get('body')!)) return false;
  return [...circuit.parts.values()].some(
    (part) =>
      part.type === 'module' &&
      !setUp.out.has(part.id) &&
      [...network.points].some(
        ([name, node]) =>
          name.startsWith(`${part.id}.`) &&
          ![`${part.id}.${part.supply}`, `${part.id}.${part.ground}`].includes(name) &&
          seen.has(node),
      ) &&
      ![part.supply, part.ground].some((terminal) => seen.has(network.points.get(`${part.id}.${terminal}`)!)),
  );
}
