/** An attempt at an exercise: begun, gone on with after a pause or a crash, counted. */
import { dirname, resolve } from 'node:path';
import { createJournal, JournalError, readJournal } from '../files/journal.js';
import { listSessions, newSessionFile } from '../files/places.js';
import { Run, type Strange } from '../exercise/run.js';
import type { ExerciseEvent, Recorded } from '../session/events.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';
import { findCircuit } from './find-circuit.js';
import { difficultyOf, drawnExercise, findExercise, type FoundExercise } from './find-exercise.js';
import { surroundings, type AtWork } from './open-session.js';
import { Session } from './session.js';
import { PROGRAM } from './version.js';

export type Begun = Extract<ExerciseEvent, { type: 'exercise' }>;

export interface Attempt extends AtWork {
  readonly run: Run;
}

export function begunIn(recorded: readonly Recorded[]): Begun | undefined {
  for (const { event } of recorded) if (event.type === 'exercise') return event;
  return undefined;
}

/** Begins an attempt in a new journal. */
export async function beginAttempt(
  context: Context,
  found: FoundExercise,
  { session: name, student }: { readonly session?: string; readonly student?: string },
): Promise<Attempt> {
  const { io } = context;
  const { exercise, bench, circuit } = found;
  const at = io.now().toISOString();
  const file =
    name === undefined ? newSessionFile(surroundings(context), exercise.id, at) : resolve(io.cwd, name);
  const attempt = 1 + (await attemptsIn(dirname(file), exercise.hash, student, io.platform));
  const run = await Run.begin(bench, exercise);
  const journal = await createJournal(file);
  const session = new Session(bench.circuit, [], journal, () => io.now().toISOString());
  try {
    const recorded = await session.record([
      { type: 'opened', format: 1, program: PROGRAM, circuit },
      {
        type: 'exercise',
        id: exercise.id,
        hash: exercise.hash,
        attempt,
        file: found.file,
        ...(student === undefined ? {} : { student }),
        ...(found.drawn === undefined ? {} : { drawn: found.drawn }),
      },
      ...run.opening,
    ]);
    await run.again(recorded);
    return { run, session, file };
  } catch (error) {
    await session.close();
    throw error;
  }
}

/** Highest number of an attempt of this student at this exercise among the journals of a folder. */
async function attemptsIn(
  folder: string,
  hash: string,
  student: string | undefined,
  platform: string,
): Promise<number> {
  let most = 0;
  for (const file of await listSessions(folder, platform)) {
    try {
      const begun = begunIn((await readJournal(file)).recorded);
      if (begun?.hash === hash && begun.student === student) most = Math.max(most, begun.attempt);
    } catch (error) {
      // A damaged journal beside it is no reason not to begin.
      if (!(error instanceof JournalError)) throw error;
    }
  }
  return most;
}

/** The vehicle of an attempt as it stands after its journal. */
export async function resumeAttempt(
  context: Context,
  { session, file }: AtWork,
  exerciseFile?: string,
): Promise<Attempt> {
  const begun = begunIn(session.recorded)!;
  const found = await exerciseOf(context, begun, session.recorded, exerciseFile);
  if (found.exercise.hash !== begun.hash)
    throw new Failure(
      `the exercise has changed since this attempt began: ${found.file || begun.id}`,
      'Put back the file and circuit it was begun with, or begin a new attempt.',
    );
  const run = await Run.begin(found.bench, found.exercise);
  const [strange] = await run.again(session.recorded);
  if (strange !== undefined)
    throw new Failure(
      `event ${strange.number} of ${file} is not what this vehicle gave`,
      'The journal was written by something else; begin a new attempt.',
    );
  return { run, session, file };
}

export async function exerciseOf(
  context: Context,
  { drawn, file }: Begun,
  recorded: readonly Recorded[],
  exerciseFile?: string,
): Promise<FoundExercise> {
  if (drawn === undefined) return findExercise(context, exerciseFile ?? file);
  const opened = recorded.find(({ event }) => event.type === 'opened')?.event;
  if (opened?.type !== 'opened') throw new Failure('the session does not say on which circuit it was begun');
  const circuit = await findCircuit(context, opened.circuit.file);
  return drawnExercise(circuit, drawn.seed, difficultyOf(String(drawn.difficulty)));
}

export type { Strange };
