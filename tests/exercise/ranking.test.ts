/** A small sample of tests/trials/exercises.ts, from a fixed seed; that a second run gives the same is tested with the marks. */
import { expect, test } from 'vitest';
import { inOrder, NAMES, rank } from './ranking.js';

test('when five scripted students do an exercise then the marks rank them', async () => {
  const ranked = await rank('reversing-lamps', 2, 2);
  expect(NAMES).toHaveLength(5);
  expect(ranked!.road.cured).toBe(true);
  expect(inOrder(ranked!.marks) ? '' : ranked!.story).toBe('');
  expect(ranked!.marks[0]).toBeGreaterThan(ranked!.marks[4]!);
});
