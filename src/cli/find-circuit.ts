/** The circuit file a person means, read and checked; its mistakes are printed where it cannot be used. */
import { access } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { printDiagnostics } from '../circuit/print-diagnostic.js';
import { readCircuit, type LoadedCircuit } from '../files/circuit-file.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';

export interface FoundCircuit extends LoadedCircuit {
  /** Full path. */
  readonly file: string;
}

/** Circuits that come with the program: `start stop-tail` works from any folder. */
const OWN_CIRCUITS = fileURLToPath(new URL('../../circuits/', import.meta.url));

export async function findCircuit({ io, output }: Context, name: string): Promise<FoundCircuit> {
  const file = await fileOf(resolve(io.cwd, name), name);
  const loaded = await readCircuit(file);
  if ('problems' in loaded) {
    output.say(printDiagnostics(loaded.source, name, loaded.problems).join('\n'));
    throw new Failure(
      `${name} cannot be used`,
      'Mend it, then try again; knowngood check FILE shows the same.',
    );
  }
  return { ...loaded, file };
}

async function fileOf(path: string, name: string): Promise<string> {
  if (await exists(path)) return path;
  const own = resolve(OWN_CIRCUITS, `${name.replace(/\.yaml$/, '')}.yaml`);
  return basename(name) === name && (await exists(own)) ? own : path;
}

function exists(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}
