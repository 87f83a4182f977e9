/** The exercise a person means, read and checked; its mistakes are printed where it cannot be used. */
import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import { printDiagnostics } from '../circuit/print-diagnostic.js';
import { createWorkbench } from '../diagnosis/workbench.js';
import { DIFFICULTIES, drawExercise, type Difficulty } from '../exercise/draw-exercise.js';
import type { Exercise } from '../exercise/exercise.js';
import { readExerciseFile, type LoadedExercise } from '../files/exercise-file.js';
import { isProved } from '../files/seal.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';
import type { FoundCircuit } from './find-circuit.js';

export interface FoundExercise {
  readonly exercise: Exercise;
  readonly bench: Workbench;
  readonly circuit: { readonly id: string; readonly hash: string; readonly file: string };
  /** Full path; empty for a drawn one. */
  readonly file: string;
  readonly drawn?: { readonly seed: number; readonly difficulty: number };
}

export async function findExercise(
  context: Context,
  name: string,
): Promise<FoundExercise & { readonly loaded: LoadedExercise }> {
  const { io, output } = context;
  const file = resolve(io.cwd, name);
  const loaded = await readExerciseFile(file);
  if ('problems' in loaded) {
    output.say(printDiagnostics(loaded.source, name, loaded.problems).join('\n'));
    throw new Failure(
      `${name} cannot be used`,
      'Mend it, then try again; knowngood check FILE shows the same.',
    );
  }
  const { exercise, bench, circuitFile, circuitHash } = loaded;
  const circuit = { id: bench.circuit.id, hash: circuitHash, file: circuitFile };
  return { exercise, bench, circuit, file, loaded };
}

/** For an instructor: a sealed file must be proved by the key phrase. */
export async function proveExercise(
  context: Context,
  name: string,
  key: string | undefined,
): Promise<FoundExercise & { readonly loaded: LoadedExercise }> {
  const found = await findExercise(context, name);
  const { sealed } = found.loaded;
  if (sealed === undefined) return found;
  if (key === undefined)
    throw new Failure(`${name} is sealed`, 'Give the key phrase with which it was sealed: --key PHRASE.');
  if (!isProved(sealed.open, sealed.seal, key))
    throw new Failure(
      `${name} was not sealed with this key phrase, or has been changed since`,
      'Check the phrase, letter by letter, or take the file that exercise seal has written.',
    );
  return found;
}

export async function drawnExercise(
  { circuit, hash, file }: FoundCircuit,
  seed: number,
  difficulty: Difficulty,
): Promise<FoundExercise> {
  const bench = createWorkbench(circuit);
  const drawn = await drawExercise(bench, seed, difficulty);
  if (drawn === undefined)
    throw new Failure(
      `nothing that was drawn for ${circuit.id} shows in a load`,
      'Try another seed or difficulty; a circuit without loads has no complaint to give.',
    );
  const named = createHash('sha256')
    .update(JSON.stringify(['drawn', hash, seed, difficulty]))
    .digest('hex');
  return {
    exercise: { ...drawn, hash: named },
    bench,
    circuit: { id: circuit.id, hash, file },
    file: '',
    drawn: { seed, difficulty },
  };
}

export function difficultyOf(typed: string | undefined): Difficulty {
  const found = DIFFICULTIES.find((one) => String(one) === (typed ?? '2'));
  if (found === undefined) throw new Failure(`"${typed}" is no difficulty`, 'Give 1 to 5: --difficulty 3');
  return found;
}

export function seedOf(typed: string): number {
  if (!/^\d{1,9}$/.test(typed)) throw new Failure(`"${typed}" is no seed`, 'Give a whole number: --seed 7');
  return Number(typed);
}
