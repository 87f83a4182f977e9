/**
 * The exhaustive search for pairs on two circuits, beside the reasoner's: sessions of two hidden faults, whatever they show, and
 * sessions that no single fault explains.
 */
import { expect, test } from 'vitest';
import { workbenchOf } from '../diagnosis/session-of.js';
import { comparePairs, needsTwo } from './pair-grid.js';

const READINGS = 8;
const FIRST = 31;

test.each([
  { name: 'reversing-lamps', any: 2, two: 1 },
  { name: 'work-lamps', any: 1, two: 1 },
])('when every pair of $name is tried on a fine grid then none was missed', async ({ name, any, two }) => {
  const bench = await workbenchOf(name);
  const seeds = Array.from({ length: any }, (_, i) => FIRST + i);
  for (let seed = FIRST + any; seeds.length < any + two; seed++)
    if (await needsTwo(bench, seed, READINGS)) seeds.push(seed);
  let fitted = 0;
  for (const seed of seeds) {
    const { pairs, points, fitting, missed } = await comparePairs(bench, seed, READINGS);
    console.log(
      `${name} seed ${seed}: ${pairs} pairs, ${points} points, ${fitting} fit, ${missed.length} missed`,
    );
    expect(missed).toEqual([]);
    expect(pairs).toBeGreaterThan(1000);
    fitted += fitting;
  }
  expect(fitted).toBeGreaterThan(0);
});
