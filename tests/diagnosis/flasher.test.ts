/** A flasher is always in one of two states, and no cut of a severity makes it one. */
import { afterEach, expect, it, vi } from 'vitest';
import { blownBy } from '../../src/diagnosis/restrict.js';
import { drivenSetUps, standingOf } from '../../src/diagnosis/evidence.js';
import { makeGrid } from '../../src/diagnosis/grid.js';
import { Solver } from '../../src/network/solver.js';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

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

const flashing = ['key on', 'turn lever left', 'H1 off', 'prove test lamp'];

it('when a test lamp flashes at a point then it is judged by its bright moments', async () => {
  const bench = await workbenchOf('turn-hazard');
  const open = diagnosisOf(bench, [...flashing, 'testlamp H1.1 flashes']);
  // Ohms that leave a lamp dull enough for either word are left; an open pin is not.
  const pin = open.suspects.find(({ hypothesis }) => hypothesis === 'X1.1 resistance');
  expect(pin?.severities[0]?.high ?? 0).toBeLessThan(1000);
  expect(suspectIds(open)).toContain('H1.31 resistance');
});

it('when a test lamp stays dark in both moments then the feed is what is left', async () => {
  const bench = await workbenchOf('turn-hazard');
  const dark = diagnosisOf(bench, [...flashing, 'testlamp H1.1 off']);
  expect(suspectIds(dark)).toContain('X1.1 resistance');
  expect(suspectIds(dark)).not.toContain('H1.31 resistance');
});

it('when a voltmeter happens to catch the dark moment then it rules nothing out', async () => {
  const bench = await workbenchOf('turn-hazard');
  const before = suspectIds(diagnosisOf(bench, ['key on', 'turn lever left', 'H1 off', 'prove volts']));
  const after = suspectIds(
    diagnosisOf(bench, ['key on', 'turn lever left', 'H1 off', 'prove volts', 'volts H1.1 0.00']),
  );
  expect(after).toEqual(expect.arrayContaining(before));
});
