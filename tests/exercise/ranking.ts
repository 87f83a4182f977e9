/** Marks of the five scripted students on drawn exercises, and how often they stand in the right order. */
import { createWorkbench, type Workbench } from '../../src/diagnosis/workbench.js';
import { drawExercise, type Difficulty } from '../../src/exercise/draw-exercise.js';
import type { Exercise } from '../../src/exercise/exercise.js';
import { markOf } from '../../src/exercise/mark.js';
import { planned, type Road } from '../../src/exercise/planner-road.js';
import { Run } from '../../src/exercise/run.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { STUDENTS } from './students.js';

export const NAMES = Object.keys(STUDENTS);

export interface Ranked {
  readonly exercise: string;
  readonly difficulty: Difficulty;
  /** How hard it is, as the planner meets it. */
  readonly road: Road;
  /** In the order of NAMES. */
  readonly marks: readonly number[];
  /** What cost the marks, for a look at an exercise that came out of order. */
  readonly story: string;
}

/** That of the circuit asked for last: one remembers hundreds of megabytes of what it has solved. */
let last: { readonly circuit: string; readonly bench: Promise<Workbench> } | undefined;

export function benchOf(circuit: string): Promise<Workbench> {
  if (last?.circuit !== circuit) {
    const bench = readCircuit(`circuits/${circuit}.yaml`).then((loaded) => {
      if ('problems' in loaded) throw new Error(`${circuit} does not load`);
      return createWorkbench(loaded.circuit);
    });
    last = { circuit, bench };
  }
  return last.bench;
}

/** Undefined where nothing that is drawn for this circuit shows. */
export async function rank(
  circuit: string,
  seed: number,
  difficulty: Difficulty,
): Promise<Ranked | undefined> {
  const bench = await benchOf(circuit);
  const drawn = await drawExercise(bench, seed, difficulty);
  if (drawn === undefined) return undefined;
  const exercise: Exercise = { ...drawn, hash: '' };
  const marks: number[] = [];
  const stories: string[] = [];
  let road: Road | undefined;
  for (const name of NAMES) {
    const run = await Run.begin(bench, exercise);
    if (name === 'planner') road = await planned(run);
    else await STUDENTS[name]!(run);
    const mark = markOf(run, road!);
    marks.push(mark.total);
    const lost = mark.losses.map(
      ({ item, marks: m, event, why }) => `   ${item} -${m} ${event?.number ?? ''} ${why}`,
    );
    stories.push(`  ${name}: ${mark.total}, ${mark.minutes} min`, ...lost);
  }
  const hidden = exercise.faults.map(({ fault, severity }) => `${fault.id} ${severity.toPrecision(3)}`);
  const story = [`${exercise.id}: ${hidden.join(' + ')}; ${exercise.complaint.join('; ')}`, ...stories].join(
    '\n',
  );
  return { exercise: exercise.id, difficulty, road: road!, marks, story };
}

/** Each at least as many marks as the next. */
export function inOrder(marks: readonly number[]): boolean {
  return marks.every((mark, i) => i === 0 || mark <= marks[i - 1]!);
}
