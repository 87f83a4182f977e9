/** One circuit file, damaged again and again: every result must be a circuit or a refusal in plain words. */
import { readFileSync } from 'node:fs';
import { printDiagnostics } from '../../src/circuit/print-diagnostic.js';
import { parseCircuit } from '../../src/files/circuit-file.js';
import { mutate, randomFrom } from './mutate.js';

const folder = new URL('../../circuits/', import.meta.url);

export interface Tally {
  read: number;
  refused: number;
  readonly codes: Set<string>;
}

/** Damages the file once for each seed from 1 on. Throws with file and seed at the first result that is neither. */
export function damage(file: string, times: number): Tally {
  const valid = readFileSync(new URL(file, folder), 'utf8');
  const tally: Tally = { read: 0, refused: 0, codes: new Set() };
  for (let seed = 1; seed <= times; seed++) {
    try {
      judge(mutate(valid, randomFrom(seed)), file, tally);
    } catch (error) {
      throw new Error(`${file} with seed ${seed}: ${(error as Error).message}`, { cause: error });
    }
  }
  return tally;
}

function judge(text: string, file: string, tally: Tally): void {
  const result = parseCircuit(text);
  const told = 'problems' in result ? result.problems : result.advice;
  if ('problems' in result) tally.refused++;
  else tally.read++;
  if ('problems' in result !== told.some(({ severity }) => severity === 'error')) {
    throw new Error('refused without an error, or read with one');
  }
  for (const { range, code, message, mend } of told) {
    tally.codes.add(code);
    if (!(range.start >= 0 && range.start <= range.end && range.end <= text.length)) {
      throw new Error(`${code} points outside the text: ${range.start} to ${range.end}`);
    }
    if (message === '' || mend === '' || /undefined|\[object|NaN/.test(message + mend)) {
      throw new Error(`${code} does not speak plainly: ${message}. ${mend}`);
    }
  }
  for (const line of printDiagnostics(text, file, told)) {
    if (/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u.test(line))
      throw new Error(`unprintable: ${JSON.stringify(line)}`);
    if (/\bat .*:\d+:\d+\)?$/.test(line)) throw new Error(`a stack trace: ${line}`);
  }
}
