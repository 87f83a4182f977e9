/**
 * A hundred of the simulated sessions; all of them in the .long.ts files. Single faults, and circuits that are judged quickly: two
 * faults at once take too long here. (Hundreds more, with tests drawn at random, are in first-law.test.ts.)
 */
import { expect, test } from 'vitest';
import { Ngspice } from '../oracle/ngspice.js';
import type { Job, Result } from './trials.js';
import { jobs, runJobs } from './trials.js';

/** Three of four are single faults. */
const SESSIONS = 128;
const CIRCUITS = ['reversing-lamps', 'fuel-gauge', 'accessory-socket', 'horn'];

async function run(list: readonly Job[], ngspice: Ngspice | undefined): Promise<Result[]> {
  const results: Result[] = [];
  await runJobs(list, ngspice, (result) => results.push(result));
  return results;
}

function misses(results: readonly Result[]): string[] {
  return results.flatMap(({ error, score, story }) => {
    if (error !== undefined) return [error];
    if (score === undefined) return ['no vehicle showed anything'];
    if (score.dangers.length > 0) return score.dangers.map((danger) => `${score.truth}: ${danger}`);
    const plain = score.kind === 'single' || score.kind === 'double';
    return plain && (!score.kept || score.confirmed === 'wrong') ? [story ?? score.truth] : [];
  });
}

const singles = (sessions: number, seed: number) =>
  jobs(sessions, CIRCUITS, seed).filter(({ kind }) => kind === 'single');

test('when the program chooses the tests then the true fault is kept', { timeout: 600_000 }, async () => {
  expect(misses(await run(singles(SESSIONS, 7000), undefined)).join('\n\n')).toBe('');
});

test('when ngspice is the vehicle then the true fault is kept', { timeout: 600_000 }, async () => {
  expect(misses(await run(singles(4, 9000), await Ngspice.start())).join('\n\n')).toBe('');
});
