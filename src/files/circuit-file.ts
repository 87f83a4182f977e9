/** Circuit files: disk or text → checked circuit. */
import { createHash } from 'node:crypto';
import { checkCircuit } from '../circuit/check-circuit.js';
import type { Circuit } from '../circuit/circuit.js';
import type { Diagnostic } from '../circuit/diagnostic.js';
import { readTextFile } from './text-file.js';
import { readYaml } from './yaml-source.js';

export interface LoadedCircuit {
  readonly circuit: Circuit;
  /** SHA-256 of the file's text in UTF-8 with line ends as LF, so that a checkout on another system is the same circuit. */
  readonly hash: string;
  readonly advice: readonly Diagnostic[];
  /** The text the advice points into. */
  readonly source: string;
}

export interface RefusedCircuit {
  /** At least one error, sorted by place. */
  readonly problems: readonly Diagnostic[];
  readonly source: string;
}

/** Reads and checks a circuit file. Never throws: a file that cannot be read is a problem like any other. */
export async function readCircuit(path: string): Promise<LoadedCircuit | RefusedCircuit> {
  const file = await readTextFile(path);
  return 'problems' in file ? file : parseCircuit(file.text);
}

/** Checks the text of a circuit file, without touching the disk. Never throws on any text. */
export function parseCircuit(source: string): LoadedCircuit | RefusedCircuit {
  const yaml = readYaml(source);
  if ('problems' in yaml) return { problems: yaml.problems, source };
  const checked = checkCircuit(yaml.document.value, yaml.document.ranges);
  if ('problems' in checked) return { problems: checked.problems, source };
  const hash = createHash('sha256').update(source.replaceAll('\r\n', '\n')).digest('hex');
  return { circuit: checked.circuit, hash, advice: checked.advice, source };
}
