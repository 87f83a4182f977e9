/** What both halves of the random exercises must show. */
import { expect } from 'vitest';
import { inOrder } from '../exercise/ranking.js';
import { otherwise, runExercises } from './exercises.js';

/** Share of exercises in which the marks must stand in order. */
const ENOUGH = 0.95;

export async function checkHalf(shard: number, folder: string): Promise<void> {
  const done = await runExercises(shard, folder);
  const marks = done.flatMap(({ ranked }) => (ranked === undefined ? [] : [ranked.marks]));
  expect(await otherwise(done)).toEqual([]);
  expect(marks.filter(inOrder).length / marks.length).toBeGreaterThanOrEqual(ENOUGH);
}

/** For one half, milliseconds. */
export const HALF = { timeout: 8 * 3_600_000 };
