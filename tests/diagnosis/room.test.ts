import { expect, test } from 'vitest';
import { makeGrid } from '../../src/diagnosis/grid.js';
import { roomOf } from '../../src/diagnosis/room.js';
import { workbenchOf } from './session-of.js';

async function roomOfAll(...ids: readonly string[]): Promise<number> {
  const { faults } = await workbenchOf('headlamps-switch');
  const grid = makeGrid(ids.map((id) => faults.find((fault) => fault.id === id)!));
  return roomOf(new Uint8Array(grid.size).fill(1), grid);
}

test('when two faults fit anywhere then they count fully, beside a short that no fuse ends too', async () => {
  expect(await roomOfAll('GP3 resistance', 'W9 resistance')).toBe(1);
  expect(await roomOfAll('F2:link open', 'S1.56 short')).toBe(1);
});

test('when a short that no fuse ends fits anywhere then its dead end counts for next to nothing', async () => {
  expect(await roomOfAll('S1.56 short')).toBeLessThan(await roomOfAll('H2.56a short'));
});
