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

test('when a short pulled the battery down while it was measured then its volts with the short away rule it not out', async () => {
  const bench = await workbenchOf('truck-24v');
  const lines = [
    'lights on',
    'fails H1.58 H2.58 H5',
    'volts bat+ bat- 20.4',
    'volts F3.2 bat- 4.9',
    'out F3',
    'see H1.58 lit',
    'volts F3.1 bat- 25.8',
  ];
  const left = suspectIds(diagnosisOf(bench, lines));
  expect(left).toContain('F3.1 short');
  // What drains nothing is held to the battery that was read.
  expect(left).not.toContain('F3.2 resistance');
});
