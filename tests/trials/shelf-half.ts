/** What both halves of the hunt must show. */
import { expect } from 'vitest';
import { isFound, runShelf } from './shelf.js';

export async function checkHunt(shard: number, folder: string): Promise<void> {
  const hunted = await runShelf(shard, folder);
  const scored = hunted.flatMap(({ score }) => score ?? []);
  const told = (list: typeof scored) =>
    list.map(({ circuit, truth, apart }) => `${circuit} ${truth} ${apart}`);
  expect(scored.length).toBeGreaterThan(0);
  expect(told(scored.filter(({ kept }) => !kept))).toEqual([]);
  expect(told(scored.filter(({ confirmed }) => confirmed === 'wrong'))).toEqual([]);
  expect(told(scored.filter((one) => !isFound(one)))).toEqual([]);
}

/** For one half, milliseconds. */
export const HALF = { timeout: 8 * 3_600_000 };
