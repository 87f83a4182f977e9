/**
 * The circuit file of a replayed journal. A journal holds the path on the machine where it was recorded; on another one the file is
 * looked for in the folder that was named, beside the journal, and among the circuits that come with the program.
 */
import { basename, dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { printDiagnostics } from '../../circuit/print-diagnostic.js';
import { readCircuit } from '../../files/circuit-file.js';
import type { Recorded } from '../../session/events.js';
import { drawingOf } from '../../session/fold.js';
import { Failure } from '../failure.js';
import type { FoundCircuit } from '../find-circuit.js';

const OWN_CIRCUITS = fileURLToPath(new URL('../../../circuits/', import.meta.url));

/** @param folder where circuit files are looked for first, full path. Throws Failure. */
export async function journalCircuit(
  journal: string,
  recorded: readonly Recorded[],
  folder: string | undefined,
): Promise<FoundCircuit> {
  const wanted = drawingOf(recorded);
  if (wanted === undefined)
    throw new Failure(
      'the session does not say on which circuit it was begun',
      'Nothing can be reasoned from it.',
    );
  // Recorded on another system, the folders may be parted otherwise.
  const name = basename(wanted.file.replaceAll('\\', '/'));
  const places = [
    ...(folder === undefined ? [] : [join(folder, name)]),
    resolve(dirname(journal), wanted.file),
    join(dirname(journal), name),
    join(OWN_CIRCUITS, name),
  ];
  let other: FoundCircuit | undefined;
  for (const file of new Set(places)) {
    const loaded = await readCircuit(file);
    if ('problems' in loaded) {
      if (loaded.source === '') continue;
      throw new Failure(
        `its circuit cannot be used:\n${printDiagnostics(loaded.source, file, loaded.problems).join('\n')}`,
        'Mend the circuit file, then replay again.',
      );
    }
    if (loaded.circuit.id === wanted.id) return { ...loaded, file };
    other ??= { ...loaded, file };
  }
  if (other !== undefined)
    throw new Failure(
      `${other.file} is the circuit ${other.circuit.id}; the session is about ${wanted.id}`,
      'Name the folder that has the right one with --circuits FOLDER.',
    );
  throw new Failure(
    `its circuit file ${name} (${wanted.id}) is not at ${wanted.file}, nor beside the session`,
    'Name the folder that has it with --circuits FOLDER.',
  );
}
