/** An unfused short pulls the whole supply down: what a module then does hangs on joints that are no fault of anybody's. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when a module that a short leaves at seven volts is off then the short stays suspected', async () => {
  const bench = await workbenchOf('daytime-module');
  const lines = [
    'key on',
    'lights on',
    'washer button pressed',
    'see M1 stopped',
    'volts bat+ F2.1 8.5',
    'volts SP1 bat- 9.4',
    // It may have gone off while its fuse was out; it needs more to come on again.
    'out F1',
    'in F1',
    'volts bat+ A1.58R 9/11.23',
  ];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('W9 short');
});
