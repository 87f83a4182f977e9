/** A fault through which a relay feeds its own coil: with all relays at rest nothing flows through it, and yet it matters. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when a starter turns with the key at rest then wires that hold its relay by touching stay suspected', async () => {
  const bench = await workbenchOf('starter-24v');
  const lines = [
    'master switch on',
    'gear neutral',
    'see K2 clicks',
    'see H1 off',
    'see K1 clicks',
    'see M1 runs',
  ];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('W13 touching W17');
});
