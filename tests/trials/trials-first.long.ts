/** The first half of the simulated sessions; the halves run side by side. */
import { expect, inject, test } from 'vitest';
import { runShard } from './trials.js';

/**
 * How many sessions in all (104 in each circuit, 35 in the long ones), and what stands behind the vehicle:
 * `KNOWNGOOD_TRIALS=200 KNOWNGOOD_CAR=solver npm run trials`.
 */
const SESSIONS = Number(process.env['KNOWNGOOD_TRIALS'] ?? 3017);
const REFERENCE = process.env['KNOWNGOOD_CAR'] !== 'solver';

test('when the first half of the simulated sessions ends then every true fault is kept and nothing is wrongly confirmed', async () => {
  const results = await runShard(0, SESSIONS, inject('trialsFolder'), REFERENCE);
  expect(results.filter(({ error }) => error !== undefined)).toEqual([]);
  expect(results.flatMap(({ score }) => score?.dangers ?? [])).toEqual([]);
  const plain = results.flatMap(({ score }) =>
    score?.kind === 'single' || score?.kind === 'double' ? score : [],
  );
  expect(plain.filter(({ kept }) => !kept).map(({ circuit, seed }) => `${circuit} ${seed}`)).toEqual([]);
  expect(
    plain.filter(({ confirmed }) => confirmed === 'wrong').map(({ circuit, seed }) => `${circuit} ${seed}`),
  ).toEqual([]);
});
