/** A sample of the simulated sessions; all of them in the .long.ts files. */
import { expect, test } from 'vitest';
import { Ngspice } from '../oracle/ngspice.js';
import type { Job, Result } from './trials.js';
import { circuitNames, jobs, runJobs } from './trials.js';

/** Sessions in all, and on how many of the circuits; the others come in the long run. */
const SESSIONS = 100;
const CIRCUITS = ['reversing-lamps', 'work-lamps'];

async function run(list: readonly Job[], ngspice: Ngspice | undefined): Promise<Result[]> {
  const results: Result[] = [];
  await runJobs(list, ngspice, (result) => results.push(result));
  return results;
}

function misses(results: readonly Result[]): string[] {
  return results.flatMap(({ error, score, story }) => {
    if (error !== undefined) return [error];
    if (score === undefined) return ['no vehicle showed anything'];
    const plain = score.kind === 'single' || score.kind === 'double';
    return plain && (!score.kept || score.confirmed === 'wrong') ? [story ?? score.truth] : [];
  });
}

test(
  'when a hundred sessions are simulated then the true fault is kept in all',
  { timeout: 900_000 },
  async () => {
    const list = jobs(SESSIONS, CIRCUITS, 7000).slice(0, SESSIONS);
    expect(misses(await run(list, undefined)).join('\n\n')).toBe('');
  },
);

test('when ngspice is the vehicle then the true fault is kept', { timeout: 300_000 }, async () => {
  const list = jobs(circuitNames().length, circuitNames(), 9000).filter(({ kind }) => kind === 'single');
  const some = list.filter(({ circuit }) => CIRCUITS.includes(circuit));
  expect(misses(await run(some, await Ngspice.start())).join('\n\n')).toBe('');
});
