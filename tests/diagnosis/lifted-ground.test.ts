/** A module whose ground pin sits in the data line lifts its own ground by all it draws: how far is open, and what its inputs see with it. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';
import { trial } from '../trials/first-law.js';

test('when its ground and a data line are crossed then it may light the lamp as it should', async () => {
  const bench = await workbenchOf('can-pair');
  const diagnosis = diagnosisOf(bench, ['pedal down', 'prove volts', 'volts A3.31 1.39', 'H2 lit']);
  expect(suspectIds(diagnosis)).toContain('X3.2 crossed X3.3');
});

test('when such a vehicle is looked at in any order then the fault is kept', async () => {
  const bench = await workbenchOf('can-pair');
  expect((await trial(bench, 151000044)).kept).toBe(true);
});
