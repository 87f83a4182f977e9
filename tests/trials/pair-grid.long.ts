/** The exhaustive search for pairs on two circuits, beside the reasoner's. */
import { expect, test } from 'vitest';
import { workbenchOf } from '../diagnosis/session-of.js';
import { comparePairs } from './pair-grid.js';

test.each([
  ['reversing-lamps', [31, 32, 33]],
  ['two-grounds', [31]],
] as const)('when every pair of %s is tried on a fine grid then none was missed', async (name, seeds) => {
  const bench = await workbenchOf(name);
  for (const seed of seeds) {
    const { pairs, points, fitting, missed } = await comparePairs(bench, seed, 7);
    console.log(`${name} seed ${seed}: ${pairs} pairs, ${points} points, ${fitting} fit, ${missed.length} missed`);
    expect(missed).toEqual([]);
    expect(pairs).toBeGreaterThan(1000);
  }
});
