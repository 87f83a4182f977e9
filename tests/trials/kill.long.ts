/** The long form of tests/files/journal-kill.test.ts. It proves nothing about a loss of power: only the order of sync and answer does. */
import { expect, test } from 'vitest';
import { killRounds } from '../files/kill-rounds.js';

test('when the recording program is killed 100 times then no acknowledged record is lost and the session goes on', async () => {
  const rounds = await killRounds(100, 2);
  console.log(
    `killed 100 times: ${rounds.acknowledged} records acknowledged, none lost; ` +
      `${rounds.torn} torn tails mended, ${rounds.early} killed before the journal was open`,
  );
  expect(rounds.acknowledged).toBeGreaterThan(100);
});
