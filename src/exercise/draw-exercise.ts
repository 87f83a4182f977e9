/**
 * Exercises without end: a fault drawn by difficulty, and a complaint that the vehicle really gives. The same circuit, seed and
 * difficulty give the same exercise.
 */
import { canBlow, type Fault } from '../diagnosis/faults.js';
import { gather } from '../diagnosis/evidence.js';
import { judgeFindings } from '../diagnosis/senses.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { describeLoad } from '../session/describe.js';
import type { Event } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { loadKind } from '../session/names.js';
import { FAILING, WORKING } from '../session/parse-sight.js';
import { atRest, type SetUp } from '../session/setup.js';
import { complaints, type Complaint } from './complaint.js';
import { mixed } from './event-draw.js';
import { MARKS, TOOLS, type Exercise } from './exercise.js';
import { wordsSeen } from './good-words.js';
import type { HiddenFault } from './hidden-faults.js';
import { drawSeverity } from './hidden-faults.js';
import { pick, pickByWeight, random, type Draw } from './random.js';

/** 1: a clean break or short of a usual kind. 2: any severity. 3: rare kinds as well. 4: it comes and goes. 5: two behind one complaint. */
export const DIFFICULTIES = [1, 2, 3, 4, 5] as const;
export type Difficulty = (typeof DIFFICULTIES)[number];

/** Vehicles tried until one gives somebody cause to complain. */
const MOST_TRIES = 200;
/** Complaints of one vehicle looked at on it. */
const MOST_LOOKS = 6;

type Found = Extract<Event, { type: 'found' }>;

export type Drawn = Omit<Exercise, 'hash'>;

/** Undefined where nothing that is drawn for this circuit shows: it has no loads. */
export async function drawExercise(
  bench: Workbench,
  seed: number,
  difficulty: Difficulty,
): Promise<Drawn | undefined> {
  if (bench.network.loads.size === 0) return undefined;
  for (let attempt = 0; attempt < MOST_TRIES; attempt++) {
    const own = mixed(seed, 1000 * difficulty + attempt);
    const draw = random(own);
    const faults = drawHidden(bench.faults, difficulty, draw);
    const shown = await complaintOf(bench, faults, own, draw);
    if (shown === undefined) continue;
    return {
      id: `${bench.circuit.id}-${difficulty}-${seed}`,
      title: `${bench.circuit.title}: practice, difficulty ${difficulty}, seed ${seed}`,
      goal: '',
      concern: shown.concern,
      complaint: [shown.line],
      faults,
      seed: own,
      tools: new Set(TOOLS),
      budget: { minutes: undefined, money: undefined },
      help: 'none',
      hints: [],
      marking: MARKS,
    };
  }
  return undefined;
}

function drawHidden(faults: readonly Fault[], difficulty: Difficulty, draw: Draw): readonly HiddenFault[] {
  const usual = (list: readonly Fault[]) => pickByWeight(draw, list, ({ weight }) => weight);
  switch (difficulty) {
    case 1: {
      const fault = usual(faults);
      const { edges, unit } = fault.scale;
      const severity =
        unit === 'none' ? 0 : unit === 'ohm' && fault.kind === 'resistance' ? edges.at(-1)! : edges[0]!;
      return [{ fault, severity, comesAndGoes: false }];
    }
    case 2: {
      const fault = usual(faults);
      return [{ fault, severity: drawSeverity(fault, draw), comesAndGoes: false }];
    }
    case 3: {
      const fault = pick(draw, faults);
      return [{ fault, severity: drawSeverity(fault, draw), comesAndGoes: false }];
    }
    case 4: {
      const fault = usual(faults.filter((one) => one.contact && !canBlow(one)));
      return [{ fault, severity: drawSeverity(fault, draw), comesAndGoes: true }];
    }
    case 5: {
      const first = usual(faults);
      const second = usual(faults.filter(({ part }) => part !== first.part));
      return [first, second].map((fault) => ({
        fault,
        severity: drawSeverity(fault, draw),
        comesAndGoes: false,
      }));
    }
  }
}

interface Shown {
  readonly line: string;
  readonly concern: string;
}

/** A complaint that the vehicle shows; with two faults one that each of them gives alone, so that the first hides the second. */
async function complaintOf(
  bench: Workbench,
  faults: readonly HiddenFault[],
  seed: number,
  draw: Draw,
): Promise<Shown | undefined> {
  const own = faults.map(({ fault, severity }) =>
    complaints(bench, { faults: [fault.apply(severity)], added: [], absent: [], blown: 0 }),
  );
  const places = own[0]!.filter((place) =>
    own.every((list) => list.some(({ setUp, load }) => setUp === place.setUp && load === place.load)),
  );
  const most = Math.min(places.length, MOST_LOOKS);
  const start = Math.floor(draw() * most);
  for (let i = 0; i < most; i++) {
    const place = places[(start + i) % most]!;
    const found = await seen(bench, faults, seed, place);
    if (found !== undefined && (await isSeenOfEach(bench, faults, seed, place))) return found;
  }
  return undefined;
}

/** Whichever of two is mended first, the complaint stays: on this very vehicle, not only on the drawing. */
async function isSeenOfEach(
  bench: Workbench,
  faults: readonly HiddenFault[],
  seed: number,
  place: Complaint,
): Promise<boolean> {
  if (faults.length === 1) return true;
  for (const fault of faults) if ((await seen(bench, [fault], seed, place)) === undefined) return false;
  return true;
}

async function seen(
  bench: Workbench,
  faults: readonly HiddenFault[],
  seed: number,
  { setUp, load, good }: Complaint,
): Promise<Shown | undefined> {
  const kind = loadKind(bench.circuit, load);
  if (kind === undefined) return undefined;
  const when = positionsOf(bench, setUp);
  const look: Found = { type: 'found', reading: { kind: 'load', load, value: FAILING[kind] }, when };
  // The attempt begins in this very way: in from the road, then the look.
  const words = await wordsSeen(bench, { faults, seed }, [setUp], look);
  const [value] = words;
  // What one calls dim and another lit is nothing to complain of.
  if (value === undefined || words.size > 1) return undefined;
  if (good === 'first' ? value === WORKING[kind] : value !== WORKING[kind]) return undefined;
  if (!isAmiss(bench, { ...look, reading: { kind: 'load', load, value } })) return undefined;
  // Nor is what this very vehicle will do again once it is mended: nobody could tell that it was.
  if ((await wordsSeen(bench, { faults: [], seed }, [setUp], look)).has(value)) return undefined;
  const ending = when.length === 0 ? '' : ` when ${when.map((pair) => pair.join(' ')).join(', ')}`;
  return {
    line: `${load} ${value}${ending}`,
    concern: `${describeLoad(bench.circuit, load)}: ${value}${ending}`,
  };
}

/** Would no healthy vehicle show it? Of an unknown load at the edge of its volts nobody could say. */
function isAmiss(bench: Workbench, event: Found): boolean {
  const session = foldCase(bench.circuit, [{ number: 1, at: '', event }]);
  return judgeFindings(bench, gather(bench, session)).some(({ abnormal }) => abnormal);
}

function positionsOf({ circuit }: Workbench, setUp: SetUp): readonly (readonly [string, string])[] {
  const rest = atRest(circuit).controls;
  const moved = [...setUp.controls].filter(([control, position]) => rest.get(control) !== position);
  return setUp.engine === 'running' ? [...moved, ['engine', 'running']] : moved;
}
