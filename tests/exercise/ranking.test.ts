/** A small sample of tests/trials/exercises.long.ts, from fixed seeds. */
import { expect, test } from 'vitest';
import { inOrder, NAMES, rank } from './ranking.js';

test('when five scripted students do an exercise then the marks rank them, the same each time', async () => {
  const ranked = await rank('reversing-lamps', 2, 2);
  expect(NAMES).toHaveLength(5);
  expect(ranked!.road.cured).toBe(true);
  expect(inOrder(ranked!.marks) ? '' : ranked!.story).toBe('');
  expect(ranked!.marks[0]).toBeGreaterThan(ranked!.marks[4]!);
  const again = await rank('reversing-lamps', 2, 2);
  expect(again).toEqual(ranked);
});
