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

test('when a relay clicks though its fuse is out then the open ground through which it holds itself stays suspected', async () => {
  const bench = await workbenchOf('headlamps-relay');
  // Lit dipped beam, left ground open: from the filament back through the position lamp, the light switch and the dip lever to the coil.
  const lines = ['lights head', 'see H1 dim', 'out F5', 'see K1 clicks'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('GP3/W29 resistance');
});
