/** The circuit file a person means, read and checked; its mistakes are printed where it cannot be used. */
import { access } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { printDiagnostics } from '../circuit/print-diagnostic.js';
import type { GivenCosts } from '../circuit/costs.js';
import { readCostsFile } from '../files/costs-file.js';
import { readCircuit, type LoadedCircuit } from '../files/circuit-file.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';

export interface FoundCircuit extends LoadedCircuit {
  /** Full path. */
  readonly file: string;
}

/** Circuits that come with the program: `start stop-tail` works from any folder. */
export const OWN_CIRCUITS = fileURLToPath(new URL('../../circuits/', import.meta.url));

/** The person's own costs, where there are any, go before those of the circuit. */
export async function findCircuit(context: Context, name: string): Promise<FoundCircuit> {
  const { io, output } = context;
  const file = await fileOf(resolve(io.cwd, name), name);
  const loaded = await readCircuit(file);
  if ('problems' in loaded) {
    output.say(printDiagnostics(loaded.source, name, loaded.problems).join('\n'));
    throw new Failure(
      `${name} cannot be used`,
      'Mend it, then try again; knowngood check FILE shows the same.',
    );
  }
  const own = await ownCosts(context);
  const { circuit } = loaded;
  return { ...loaded, circuit: { ...circuit, costs: { ...circuit.costs, ...own } }, file };
}

async function ownCosts({ io, output, costs }: Context): Promise<GivenCosts> {
  if (costs === undefined) return {};
  const read = await readCostsFile(resolve(io.cwd, costs));
  if ('costs' in read) return read.costs;
  output.say(printDiagnostics(read.source, costs, read.problems).join('\n'));
  throw new Failure(`${costs} cannot be used`, 'Mend it, or leave --costs out for the usual costs.');
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
