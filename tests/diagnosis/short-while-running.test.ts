/** A dead short beside a running engine: the battery gives its current through its own ohms, not through those it has against a charge. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when a short lifts the body as much with the engine running as without then it stays suspected', async () => {
  const bench = await workbenchOf('charging');
  const lines = ['volts GP4 bat- 1.62', 'engine running', 'volts loaded H2.1 bat- 1.7'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('W12 short');
});
