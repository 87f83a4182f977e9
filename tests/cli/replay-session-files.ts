/** Journals for replay tests: recorded by the program itself on a copy of a circuit that the test may change. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { REVERSING, shown, type Bench } from './bench.js';

/** What leads to the ground pin of the left lamp. */
export const STEPS = [
  ...['key on, gear reverse', 'fails H1', 'works H2', 'volts bat+ bat- 12.4'],
  ...['volts X3.2h bat- 0.0', 'volts X3.2c bat- 11.9'],
];

export interface Kept {
  readonly session: string;
  /** The circuit file that the session names. */
  readonly drawing: string;
  /** Exchanges a piece of the circuit file; fails where it is not there. */
  change(from: string, to: string): Promise<void>;
}

/** A session on a circuit file of its own; `done` ends it with its conclusions. */
export async function recordedSession(at: Bench, name: string, lines: readonly string[]): Promise<Kept> {
  const drawing = await at.file(`${name}.yaml`, await readFile(REVERSING, 'utf8'));
  const session = join(at.folder, `${name}.journal`);
  for (const argv of [
    ['new', drawing, '--session', session],
    ['record', '--session', session, ...lines],
  ]) {
    const ran = await at.run(argv);
    if (ran.status !== 0) throw new Error(shown(ran));
  }
  return {
    session,
    drawing,
    async change(from, to) {
      const text = await readFile(drawing, 'utf8');
      if (!text.includes(from)) throw new Error(`no "${from}" in the circuit`);
      await writeFile(drawing, text.replace(from, to));
    },
  };
}
