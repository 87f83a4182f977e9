/** A fault behind a diode that blocks while the vehicle is well: the diode conducts once the fault is there. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when a short lifts the body so that current comes through a diode the wrong way round then it stays suspected', async () => {
  const bench = await workbenchOf('interior-lamps');
  // Behind the battery's ground a short of a milliohm lifts the body to 5 V; through the jumper and V1 that lights a test lamp dimly.
  const lines = ['jumper S4.1 S4.31', 'see H1 off', 'testlamp V2.K bat- dim'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('W1 short');
});
