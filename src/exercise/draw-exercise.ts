/**
 * Exercises without end: a fault drawn by difficulty, and a complaint that the vehicle really gives. The same circuit, seed and
 * difficulty give the same exercise.
 */
import { canBlow, type Fault } from '../diagnosis/faults.js';
import type { Workbench } from '../diagnosis/workbench.js';
import { describeLoad } from '../session/describe.js';
import type { Reading, Sight } from '../session/events.js';
import { loadKind } from '../session/names.js';
import { FAILING, WORKING } from '../session/parse-sight.js';
import { atRest, type SetUp } from '../session/setup.js';
import { complaints, type Complaint } from './complaint.js';
import { mixed } from './event-draw.js';
import { MARKS, TOOLS, type Exercise } from './exercise.js';
import type { HiddenFault } from './hidden-faults.js';
import { drawSeverity } from './hidden-faults.js';
import { pick, pickByWeight, random, type Draw } from './random.js';
import { ExerciseVehicle } from './vehicle.js';

/** 1: a clean break or short of a usual kind. 2: any severity. 3: rare kinds as well. 4: it comes and goes. 5: two behind one complaint. */
export const DIFFICULTIES = [1, 2, 3, 4, 5] as const;
export type Difficulty = (typeof DIFFICULTIES)[number];

/** Vehicles tried until one gives somebody cause to complain. */
const MOST_TRIES = 200;
/** Complaints of one vehicle looked at on it. */
const MOST_LOOKS = 6;
/** Looks at the load that must agree. */
const LOOKS = 6;

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
    const found = await seen(bench, faults, seed, places[(start + i) % most]!);
    if (found !== undefined) return found;
  }
  return undefined;
}

async function seen(
  bench: Workbench,
  faults: readonly HiddenFault[],
  seed: number,
  { setUp, load, good }: Complaint,
): Promise<Shown | undefined> {
  const kind = loadKind(bench.circuit, load);
  if (kind === undefined) return undefined;
  // The attempt begins in this very way: in from the road, then the look.
  const vehicle = await ExerciseVehicle.begin(bench, { faults, seed }, [setUp]);
  const reading: Reading = { kind: 'load', load, value: FAILING[kind] };
  const when = positionsOf(bench, setUp);
  const words = new Set<Sight>();
  for (let look = 1; look <= LOOKS; look++) {
    const { event } = await vehicle.meet(look, { type: 'found', reading, when });
    if (event.type === 'found' && event.reading.kind === 'load') words.add(event.reading.value);
  }
  const [value] = words;
  // What one calls dim and another lit is nothing to complain of.
  if (value === undefined || words.size > 1) return undefined;
  if (good === 'first' ? value === WORKING[kind] : value !== WORKING[kind]) return undefined;
  const ending = when.length === 0 ? '' : ` when ${when.map((pair) => pair.join(' ')).join(', ')}`;
  return {
    line: `${load} ${value}${ending}`,
    concern: `${describeLoad(bench.circuit, load)}: ${value}${ending}`,
  };
}

function positionsOf({ circuit }: Workbench, setUp: SetUp): readonly (readonly [string, string])[] {
  const rest = atRest(circuit).controls;
  const moved = [...setUp.controls].filter(([control, position]) => rest.get(control) !== position);
  return setUp.engine === 'running' ? [...moved, ['engine', 'running']] : moved;
}
