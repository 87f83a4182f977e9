/** The circuits that come with the program, for tests that hold for all of them. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Circuit } from '../../src/circuit/circuit.js';
import { parseCircuit, type LoadedCircuit } from '../../src/files/circuit-file.js';

const FOLDER = fileURLToPath(new URL('../../circuits/', import.meta.url));

/** Names without `.yaml`. */
export const SHELF = readdirSync(FOLDER).map((file) => file.replace('.yaml', ''));

export function loaded(text: string): LoadedCircuit {
  const read = parseCircuit(text);
  if ('problems' in read) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read;
}

export function fromShelf(name: string): LoadedCircuit {
  return loaded(readFileSync(`${FOLDER}${name}.yaml`, 'utf8'));
}

export function circuitOf(name: string): Circuit {
  return fromShelf(name).circuit;
}
