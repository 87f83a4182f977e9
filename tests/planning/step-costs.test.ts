import { expect, test } from 'vitest';
import { minutesOf } from '../../src/planning/changes.js';
import { USUAL_COSTS } from '../../src/planning/usual-costs.js';
import { workbenchOf } from '../diagnosis/session-of.js';

test('when a step has three words then it costs what the page of costs says', async () => {
  const { circuit } = await workbenchOf('stop-tail');
  const { minutes } = minutesOf(circuit, [
    { do: 'lamp in place', part: 'F4' },
    { do: 'fit known-good', part: 'F4' },
  ]);
  expect(minutes).toBeCloseTo(USUAL_COSTS['lamp-in-place'] + USUAL_COSTS['fit-known-good']);
});
