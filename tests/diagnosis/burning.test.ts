/** A dead short before every fuse would have burnt its wire: it hardly counts, and the volts tell where there is none. */
import { expect, test } from 'vitest';
import { makeGrid, placesOf } from '../../src/diagnosis/grid.js';
import { roomOf } from '../../src/diagnosis/room.js';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('shorts before every fuse burn, behind switches and relays too; those behind a fuse do not', async () => {
  const { faults } = await workbenchOf('accessory-socket');
  const burning = faults.filter(({ burnsBelow }) => burnsBelow !== undefined).map(({ id }) => id);
  expect(burning).toEqual(expect.arrayContaining(['W17 short', 'F2.1 short', 'S1.15 short', 'K1.87 short']));
  for (const fused of ['W18 short', 'F2.2 short', 'W5 short']) expect(burning).not.toContain(fused);
});

test('when only burning ohms are left then they have a fiftieth of their room', async () => {
  const { faults } = await workbenchOf('accessory-socket');
  const room = (id: string) => {
    const grid = makeGrid([faults.find((fault) => fault.id === id)!]);
    const row = new Uint8Array(grid.size);
    for (const place of placesOf(grid, [[0, 3]])) row[place] = 1;
    return roomOf(row, grid);
  };
  expect(room('W17 short') / room('W18 short')).toBeCloseTo(0.02);
});

test('when a wire after the fuse is open then volts that a burning short would have pulled down rule it out', async () => {
  const bench = await workbenchOf('accessory-socket');
  const lines = ['key on', 'E2 dead', 'E1 works', 'prove volts', 'volts F2.1 10.9', 'volts X2.1h 0.00'];
  expect(suspectIds(diagnosisOf(bench, lines))).not.toContain('F2.1 short');
});
