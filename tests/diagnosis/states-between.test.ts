/** What a circuit does at middling severities only, or as it was left, must not rule out the fault that makes it do so. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when a relay chatters as it does at a few ohms in the feed only then that feed stays suspected', async () => {
  const bench = await workbenchOf('coolant-sensor');
  // Without ohms the relay stays at rest, with many the module is dead: at both ends of the scale nothing chatters.
  expect(suspectIds(diagnosisOf(bench, ['key on', 'K1 chatters']))).toContain('SP1/W1 resistance');
});

test('when a stalled fan has not blown its fuse yet then it stays suspected', async () => {
  const bench = await workbenchOf('coolant-sensor');
  const lines = ['key on', 'coolant hot', 'dead M1', 'K1 clicks', 'volts K1.87 8.2'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('M1:winding seized');
});

test('when a module answers then its supply and ground may be swapped all the same', async () => {
  const bench = await workbenchOf('coolant-sensor');
  const lines = ['key on', 'coolant hot', 'dead M1', 'K1 silent', 'prove scan', 'scan A1.3 0.0'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('X1.1 crossed X1.2');
});
