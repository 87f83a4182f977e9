/** The exhaustive search for pairs on two circuits, beside the reasoner's, where no single fault explains the findings. */
import { expect, test } from 'vitest';
import { workbenchOf } from '../diagnosis/session-of.js';
import { comparePairs, needsTwo } from './pair-grid.js';

const READINGS = 9;

test.each([
  ['reversing-lamps', 3],
  ['two-grounds', 1],
] as const)('when every pair of %s is tried on a fine grid then none was missed', async (name, sessions) => {
  const bench = await workbenchOf(name);
  let done = 0;
  for (let seed = 31; done < sessions; seed++) {
    if (!(await needsTwo(bench, seed, READINGS))) continue;
    done += 1;
    const { pairs, points, fitting, missed } = await comparePairs(bench, seed, READINGS);
    console.log(
      `${name} seed ${seed}: ${pairs} pairs, ${points} points, ${fitting} fit, ${missed.length} missed`,
    );
    expect(missed).toEqual([]);
    expect(pairs).toBeGreaterThan(1000);
    expect(fitting).toBeGreaterThan(0);
  }
});
