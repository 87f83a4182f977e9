/** The second half of the random exercises: `KNOWNGOOD_EXERCISES=1000 npm run exercises`. */
import { expect, inject, test } from 'vitest';
import { inOrder } from '../exercise/ranking.js';
import { otherwise, runExercises } from './exercises.js';

/** Share of exercises in which the marks must stand in order. */
const ENOUGH = 0.95;
const HOURS = 3_600_000;

test(
  'when five students do the second half of the exercises then the marks rank them',
  { timeout: 8 * HOURS },
  async () => {
    const done = await runExercises(1, inject('trialsFolder'));
    const marks = done.flatMap(({ ranked }) => (ranked === undefined ? [] : [ranked.marks]));
    expect(await otherwise(done)).toEqual([]);
    expect(marks.filter(inOrder).length / marks.length).toBeGreaterThanOrEqual(ENOUGH);
  },
);
