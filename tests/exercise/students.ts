/**
 * Five scripted students, written down before their marks were counted: the marks must rank them in this order. The last two know the
 * fault, as somebody lucky does; what they do is marked by what was known.
 */
import { repairAction } from '../../src/exercise/repair-action.js';
import type { Complained } from '../../src/exercise/complaint-events.js';
import {
  actsFor,
  diagnosisOf,
  doAll,
  lookAgain,
  mend,
  planned,
  read,
  repeatAll,
} from '../../src/exercise/planner-road.js';
import { reachable } from '../../src/planning/live-line.js';
import { atRest } from '../../src/session/setup.js';
import type { Suspect } from '../../src/diagnosis/diagnosis-types.js';
import type { Run } from '../../src/exercise/run.js';
import type { Reading } from '../../src/session/events.js';
import { wayThrough } from '../bench/planning/practices.js';

export type Student = (run: Run) => Promise<void>;

/** Volts by which a point must differ from a good vehicle to count as bad; tests and repairs after which anyone gives up. */
const CLEARLY = 1;
const MOST_TESTS = 40;
const MOST_REPAIRS = 200;

export const STUDENTS: Readonly<Record<string, Student>> = {
  planner: async (run) => void (await planned(run)),
  /**
   * From the battery along the current to the load and on to ground, volts at each point; then what lies between good and bad, the
   * likeliest by those readings first, the bad point read again after each repair; where it has come good, on along the feed. Too many
   * volts say that the break is further on; where a relay's contact lies on the way its coil is followed next. (The first counts were
   * made with a student who repaired what they had just measured good, who never went on, who took the first point with too many volts
   * for the far side of the break, and who followed no coil.)
   */
  'feed-follower': async (run) => {
    await begin(run);
    const all = orderOf(run);
    const tried = new Set<string>();
    const ways: Way[] = [...run.complained];
    for (const way of ways) {
      if (await alongTheFeed(run, way, all, tried)) return finish(run);
      for (const load of coilsOn(run, way))
        if (!ways.some((other) => other.load === load)) ways.push({ ...way, load });
    }
    if (!(await repairInTurn(run, orderOf(run), tried))) await repairInTurn(run, all, tried);
    await finish(run);
  },
  /** No reading at all: the likeliest repair first, until the complaint is gone. */
  'guess-swapper': async (run) => {
    await begin(run);
    await repairInTurn(run, orderOf(run), new Set());
    await finish(run);
  },
  /** Goes straight to the right part, without a look before or after. */
  'lucky guesser': async (run) => {
    await doAll(run, run.opening);
    for (const { fault } of run.exercise.faults)
      await doAll(run, [
        { type: 'concluded', at: fault.part, words: 'that is what it always is' },
        { type: 'did', action: repairAction(run.bench, fault) },
      ]);
    await doAll(run, [{ type: 'closed' }]);
  },
  /** Sparks a feed to ground to see whether it is live, measures ohms on it, then happens to be right, and proves it. */
  'unsafe but quick': async (run) => {
    await begin(run);
    const feed = firstFeed(run);
    await doAll(run, [{ type: 'did', action: { do: 'jumper', between: [feed, 'body'] } }]);
    if (run.case.now.jumpers.length > 0)
      await doAll(run, [{ type: 'did', action: { do: 'remove jumper', between: [feed, 'body'] } }]);
    const ohms: Reading = { kind: 'ohms', red: feed, black: 'body', value: 'OL' };
    await doAll(run, [{ type: 'found', reading: ohms }]);
    for (const { fault } of run.exercise.faults) await mend(run, [fault.id]);
    await lookAgain(run);
    await finish(run);
  },
};

async function begin(run: Run): Promise<void> {
  await doAll(run, run.opening);
  await lookAgain(run);
}

/** Repeats, names what was mended last, and closes. */
async function finish(run: Run): Promise<void> {
  const cured = run.vehicle.hidden.length === 0;
  if (cured) await repeatAll(run);
  const mended = new Set(run.exercise.faults.map(({ fault }) => fault.part));
  if (cured) for (const at of mended) await doAll(run, [{ type: 'concluded', at, words: '' }]);
  await doAll(run, [{ type: 'closed' }]);
}

interface Try {
  /** What is done by hand; a wire that is cleaned at its ends is not mended along its length, though both mend the wire. */
  readonly how: string;
  readonly suspect: Suspect;
}

/** What the findings leave, the likeliest repair first. */
function orderOf(run: Run): readonly Try[] {
  return diagnosisOf(run).groups.flatMap(({ suspects }) =>
    suspects.map((suspect) => ({ how: JSON.stringify(actsFor(run, suspect)), suspect })),
  );
}

/** One after the other, until the complaint is gone. @param tried repairs done already; grows */
async function repairInTurn(run: Run, order: readonly Try[], tried: Set<string>): Promise<boolean> {
  for (const { how, suspect } of order) {
    if (tried.has(how)) continue;
    if (tried.size >= MOST_REPAIRS) return false;
    tried.add(how);
    await mend(
      run,
      suspect.faults.map(({ id }) => id),
    );
    if (await lookAgain(run)) return true;
  }
  return false;
}

/** What is followed, and in which condition. */
type Way = Pick<Complained, 'load' | 'setUp' | 'when'>;

/** Relays whose contact lies on the way: coils that may be why it does not conduct. */
function coilsOn({ bench }: Run, { setUp, load }: Way): readonly string[] {
  const { network } = bench;
  const parts = new Set(wayThrough(bench, setUp, load).elements.map((i) => network.elements[i]!.part));
  return [...network.loads].flatMap(([id, { element }]) =>
    id !== load && parts.has(network.elements[element]!.part) ? [id] : [],
  );
}

/** Follows the feed and repairs what it says, on and on. True when the complaint is gone. @param all what was suspected at first */
async function alongTheFeed(
  run: Run,
  { setUp, load, when }: Way,
  all: readonly Try[],
  tried: Set<string>,
): Promise<boolean> {
  const { bench } = run;
  const { stations, elements } = wayThrough(bench, setUp, load);
  const volts = async (red: string): Promise<number | undefined> => {
    const reading: Reading = { kind: 'volts', red, black: 'bat-', value: { value: 0, step: 0.01 } };
    const before = run.recorded.length;
    await read(run, { type: 'found', reading, ...(when.length > 0 ? { when } : {}) });
    const event = run.recorded[before]?.event;
    return event?.type === 'found' && event.reading.kind === 'volts' ? event.reading.value.value : undefined;
  };
  // What this battery gives, so that a weak one is not taken for a fault.
  const battery = (await volts('bat+')) ?? 0;
  const usual = Math.max(...stations.map(({ good }) => good));
  const judge = async ({ point, good }: (typeof stations)[number]): Promise<'good' | 'low' | 'high'> => {
    const shown = await volts(point);
    const away = shown === undefined ? 0 : shown - good * (usual > 0 ? battery / usual : 1);
    return Math.abs(away) < CLEARLY ? 'good' : away < 0 ? 'low' : 'high';
  };
  let last = -1;
  let at = 0;
  for (;;) {
    let high: number | undefined;
    while (at < Math.min(stations.length, MOST_TESTS)) {
      const shown = await judge(stations[at]!);
      if (high === undefined ? shown === 'low' : shown !== 'high') break;
      if (shown === 'high') high = at;
      last = stations[at++]!.along;
    }
    const watched = high ?? at;
    const between = elements.slice(Math.max(0, last), (stations[at]?.along ?? elements.length - 1) + 1);
    const sites = new Set(between.map((i) => bench.network.elements[i]!.site));
    // What the readings leave there, then whatever else may be wrong there.
    const there = [...orderOf(run), ...all].filter(
      ({ how, suspect }) => !tried.has(how) && suspect.faults.some(({ site }) => sites.has(site)),
    );
    let passed = false;
    for (const next of there) {
      if (tried.has(next.how)) continue;
      if (await repairInTurn(run, [next], tried)) return true;
      const station = stations[watched];
      passed = station !== undefined && (await judge(station)) === 'good';
      if (!passed) continue;
      last = station!.along;
      at = watched + 1;
      break;
    }
    if (!passed) return false;
  }
}

/** A fuse that is fed with everything at rest; else the battery's own post. */
function firstFeed({ bench }: Run): string {
  const { circuit } = bench;
  const fed = reachable(circuit, atRest(circuit), 'bat+', 'metal');
  const fuse = [...circuit.parts.values()].find(({ type, id }) => type === 'fuse' && fed.has(`${id}.1`));
  return fuse === undefined ? 'bat+' : `${fuse.id}.1`;
}
