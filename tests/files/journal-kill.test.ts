import { expect, test } from 'vitest';
import { killRounds } from './kill-rounds.js';

test('when the recording program is killed 10 times then no acknowledged record is lost and the session goes on', async () => {
  const { acknowledged } = await killRounds(10, 1);
  expect(acknowledged).toBeGreaterThan(0);
});
