/** A flasher is always in one of two states, and no cut of a severity makes it one. */
import { afterEach, expect, it, vi } from 'vitest';
import { blownBy } from '../../src/diagnosis/restrict.js';
import { drivenSetUps, standingOf } from '../../src/diagnosis/evidence.js';
import { makeGrid } from '../../src/diagnosis/grid.js';
import { Solver } from '../../src/network/solver.js';
import { workbenchOf } from './session-of.js';

afterEach(() => {
  vi.restoreAllMocks();
});

it('when both states are possible at both ends of a severity then it is not cut into its cells', async () => {
  const bench = await workbenchOf('turn-hazard');
  const setUp = drivenSetUps(bench).find(
    ({ controls }) =>
      controls.get('key') === 'on' &&
      controls.get('turn lever') === 'left' &&
      controls.get('hazard') === 'off',
  )!;
  // More ohms in a lamp's feed blow nothing, whatever the flasher does.
  const fault = bench.faults.find(({ id }) => id === 'X1.1 resistance')!;
  const grid = makeGrid([fault]);
  const solve = vi.spyOn(Solver.prototype, 'solve');
  expect(blownBy(bench, grid, standingOf(bench, setUp))).toEqual([]);
  expect(solve.mock.calls.length).toBeGreaterThan(0);
  expect(solve.mock.calls.length).toBeLessThan(grid.size);
});
