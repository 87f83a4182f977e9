/**
 * Ways of working to measure the planner against, written down before anything was measured. All are given the same free clues: the
 * complaint, a look at every load in the failed condition, and what both leave of the drawing (so they never touch what a glance
 * has ruled out). All are common practice, no source.
 *
 * 1. Follow the feed: from the battery along the current to the failed load and on to ground, volts against battery − at each point
 *    that can be probed, in the failed condition. At the first that has clearly fewer volts than a good vehicle the fault lies between
 *    it and the last before it: repair there, the likeliest first. Where a relay's contact is what does not conduct, its coil is
 *    followed in the same way. (Too many volts were taken for the far side of the fault in counts before November 2026; on the ground
 *    side they are before it.)
 * 2. Halve the path: the same points, always the middle one of what is left.
 * 3. Swap in order of likelihood: no reading at all; the likeliest repair first, until the complaint is gone.
 *
 * What they do not find they go on to repair in order of likelihood. The planner does as it advises, trying a repair before its tests
 * are through where that is sooner, then the same; beside it the same with roll-out alone, and with plain gain per minute, which tries
 * when no test tells anything.
 */
import type { Suspect } from '../../../src/diagnosis/diagnosis-types.js';
import { standingOf } from '../../../src/diagnosis/evidence.js';
import type { Workbench } from '../../../src/diagnosis/workbench.js';
import { sourceElement } from '../../../src/network/conditions.js';
import { brightOf, momentsOf } from '../../../src/network/phases.js';
import { isClosed } from '../../../src/exercise/element-current.js';
import type { Candidate } from '../../../src/planning/candidate.js';
import { actionsBetween } from '../../../src/planning/changes.js';
import type { Ahead } from '../../../src/planning/next.js';
import { advise } from '../../../src/planning/next.js';
import type { SetUp } from '../../../src/session/setup.js';
import type { Job } from './job.js';

export type Practice = (job: Job) => Promise<void>;

/** Tests after which anyone gives up testing. */
const MOST_TESTS = 25;
/** Volts by which a point must differ from a good vehicle to count as bad. */
const CLEARLY = 1;
/** Ohms of what counts as a way for the current, not as a load; and where there is no such way, of an alternator's rotor. */
const CONDUCTS = 1;
const ROTOR = 10;

export const PRACTICES: Readonly<Record<string, Practice>> = {
  planner: (job) => advised(job, 'usual'),
  'roll-out only': (job) => advised(job, 'roll-out'),
  'gain per minute': (job) => advised(job, 'not'),
  'follow the feed': (job) => along(job, (points) => points[0]!),
  'halve the path': (job) => along(job, (points) => points[points.length >> 1]!),
  'swap by likelihood': (job) => inOrder(job, job.clues.suspects),
};

async function advised(job: Job, ahead: Ahead): Promise<void> {
  const { bench, mechanic } = job;
  const tried = new Set<string>();
  for (let tests = 0; tests < MOST_TESTS; tests++) {
    const { diagnosis } = mechanic;
    const { tests: suggested, attempt } = advise(bench, mechanic.case, diagnosis, ahead);
    const [best] = suggested;
    if (attempt !== undefined) {
      const { repair, suspects } = diagnosis.groups[attempt.group]!;
      if (tried.has(repair.how)) break;
      tried.add(repair.how);
      if (await job.repair(suspects[0]!)) return;
      continue;
    }
    if (best === undefined) break;
    job.minutes += best.minutes;
    for (const action of best.actions) await mechanic.act(action);
    if ((await mechanic.read(best.reading)) === undefined)
      mechanic.record({ type: 'skipped', test: best.line, why: 'cannot tell' });
  }
  for (;;) {
    const next = mechanic.diagnosis.groups.find(({ repair }) => !tried.has(repair.how));
    if (next === undefined) break;
    tried.add(next.repair.how);
    if (await job.repair(next.suspects[0]!)) return;
  }
  await inOrder(job, job.clues.suspects, tried);
}

async function inOrder(job: Job, suspects: readonly Suspect[], tried = new Set<string>()): Promise<void> {
  const shares = new Map<string, number>();
  const how = (suspect: Suspect) => suspect.faults.map(({ repair }) => repair.how).join(' and ');
  for (const suspect of suspects) shares.set(how(suspect), (shares.get(how(suspect)) ?? 0) + suspect.share);
  const order = [...suspects].sort((a, b) => shares.get(how(b))! - shares.get(how(a))!);
  for (const suspect of order) {
    if (tried.has(how(suspect))) continue;
    tried.add(how(suspect));
    if (await job.repair(suspect)) return;
  }
}

/** A point on the way of the current: how far along it is, and what a good vehicle reads there. */
interface Station {
  readonly point: string;
  readonly along: number;
  readonly good: number;
}

async function along(job: Job, choose: (open: readonly Station[]) => Station): Promise<void> {
  const { bench, place } = job;
  const tried = new Set<string>();
  const loads = [place.load];
  for (const load of loads) {
    const { stations, elements } = wayThrough(bench, place.setUp, load);
    const first = stations[0]?.along ?? 0;
    let [low, high] = [first - 1, elements.length];
    for (let tests = 0; tests < MOST_TESTS; tests++) {
      const open = stations.filter((station) => station.along > low && station.along < high);
      if (open.length === 0) break;
      const station = choose(open);
      const volts = await probe(job, station.point);
      // Too many volts on the ground side: what does not conduct is further on.
      if (volts === undefined || volts > station.good - CLEARLY) low = station.along;
      else high = station.along;
    }
    const between = new Set(
      elements.slice(Math.max(0, low), high + 1).map((i) => bench.network.elements[i]!.site),
    );
    const there = job.clues.suspects.filter(({ faults }) => faults.some(({ site }) => between.has(site)));
    await inOrder(job, there, tried);
    if (job.solved) return;
    // A relay whose contact lies there: its coil comes next.
    for (const [id, { element }] of bench.network.loads) {
      const { part } = bench.network.elements[element]!;
      const switches = elements.some((i) => bench.network.elements[i]!.part === part);
      if (switches && !loads.includes(id)) loads.push(id);
    }
  }
  await inOrder(job, job.clues.suspects, tried);
}

async function probe(job: Job, point: string): Promise<number | undefined> {
  const { bench, mechanic, place } = job;
  const candidate: Candidate = {
    line: `volts ${point}`,
    words: `volts at ${point}`,
    setUp: place.setUp,
    reading: { kind: 'volts', red: point, black: 'bat-', value: { value: 0, step: 0.01 } },
    bare: 'probe',
    at: [bench.circuit.parts.has(point.split('.')[0]!) ? point.split('.')[0]! : point],
  };
  const reading = await job.test(candidate, actionsBetween(mechanic.setUp, place.setUp));
  return reading?.kind === 'volts' ? reading.value.value : undefined;
}

/** The shortest way of the current through a load, battery + to battery −, on a good vehicle in this set-up. */
export function wayThrough(
  bench: Workbench,
  setUp: SetUp,
  load: string,
): { stations: Station[]; elements: number[] } {
  const { network, circuit } = bench;
  const { present, source, added } = standingOf(bench, setUp);
  const battery = { kind: 'law', element: sourceElement(network), law: source } as const;
  const variant = { present, faults: [battery], blown: 0 };
  const solver = bench.solver(added);
  // While a flasher is on: nobody follows the feed in the dark moments.
  const [outcome] = brightOf(solver.solve(variant), solver.flashers).flatMap(
    (one) => momentsOf(one, solver.flashers)[0]!,
  );
  const decided = { network, added, variant, pulledIn: outcome!.pulledIn, blown: outcome!.blown };
  const conducts = (i: number, most: number) => {
    const { law } = network.elements[i]!;
    return i !== battery.element && isClosed(decided, i) && 'ohms' in law && law.ohms < most;
  };
  const upTo = (most: number) =>
    network.elements.flatMap(({ index }) => (conducts(index, most) ? [index] : []));
  const { element } = network.loads.get(load)!;
  const { a, b } = network.elements[element]!;
  const [plus, minus] = [network.points.get('bat+')!, network.points.get('bat-')!];
  // The current of a charge lamp goes on through the alternator.
  const ways = [CONDUCTS, ROTOR].map(upTo).flatMap((links) =>
    (
      [
        [a, b],
        [b, a],
      ] as const
    ).map(([feed, ground]) => [route(bench, links, plus, feed), route(bench, links, ground, minus)] as const),
  );
  const found = ways.find(([feed, ground]) => feed !== undefined && ground !== undefined);
  if (found === undefined) return { stations: [], elements: [] };
  const elements = [...found[0]!, element, ...found[1]!];
  const names = new Map<number, string>();
  for (const [point, node] of network.points) if (!names.has(node)) names.set(node, point);
  const stations: Station[] = [];
  let at = plus;
  elements.forEach((i, along) => {
    const ends = network.elements[i]!;
    at = ends.a === at ? ends.b : ends.a;
    const point = names.get(at);
    const part = circuit.parts.get(point?.split('.')[0] ?? '');
    if (point === undefined || part === undefined || part.neverProbe || at === minus) return;
    stations.push({ point, along, good: outcome!.volts[at]! - outcome!.volts[minus]! });
  });
  return { stations, elements };
}

function route(bench: Workbench, links: readonly number[], from: number, to: number): number[] | undefined {
  const came = new Map<number, { node: number; element: number }>();
  const queue = [from];
  for (const node of queue) {
    if (node === to) break;
    for (const element of links) {
      const { a, b } = bench.network.elements[element]!;
      const next = a === node ? b : b === node ? a : undefined;
      if (next === undefined || next === from || came.has(next)) continue;
      came.set(next, { node, element });
      queue.push(next);
    }
  }
  if (from === to) return [];
  if (!came.has(to)) return undefined;
  const elements: number[] = [];
  for (let node = to; node !== from; node = came.get(node)!.node) elements.unshift(came.get(node)!.element);
  return elements;
}
