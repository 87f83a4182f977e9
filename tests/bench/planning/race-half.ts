/** What both halves of the race of the planner against plainer ways must show. */
import { expect } from 'vitest';
import { meanMinutes, runRace, WAYS } from './race.js';

export async function checkRace(shard: number, folder: string): Promise<void> {
  const raced = (await runRace(shard, folder)).filter(
    ({ costs, minutes }) => costs === 'usual' && minutes.length > 0,
  );
  const [planner, ...others] = meanMinutes(raced);
  for (const [i, minutes] of others.entries())
    if (!WAYS[i + 1]!.includes('only')) expect(planner).toBeLessThan(minutes);
}

/** For one half, milliseconds. */
export const HALF = { timeout: 8 * 3_600_000 };
