import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

test('when a pair of faults was judged on other findings before then the answer is that of a fresh start', async () => {
  const told = [
    'key on',
    'gear reverse',
    'dead H1 H2',
    'prove volts',
    'volts GP1 body -12.6/12.6',
    'clean GP1',
  ];
  const goesOn = ['works H2', 'dead H1', 'volts X3.1h 12.4', 'volts H1.1 0.0'];
  const turnsOut = ['dead H1', 'dead H2', 'volts X3.1h 12.4', 'volts H1.31 11.9'];
  const used = await workbenchOf('reversing-lamps');
  for (const lines of [goesOn, turnsOut])
    for (let n = 1; n <= lines.length; n++) diagnosisOf(used, [...told, ...lines.slice(0, n)]);
  for (const lines of [goesOn, turnsOut]) {
    const fresh = diagnosisOf(await workbenchOf('reversing-lamps'), [...told, ...lines]);
    expect(diagnosisOf(used, [...told, ...lines])).toEqual(fresh);
  }
});

test('when two faults read as neither does alone then the pair that came forward before is still looked at', async () => {
  const bench = await workbenchOf('trailer');
  const lines = [
    'pedal down',
    'lights on',
    'turn lever left',
    'dead H1.54',
    'dead H1.58',
    'dead H2.54',
    'dead H2.58',
    'dead H3',
    'dead H4',
    'works H5',
    'pedal up',
    'turn lever middle',
    // Alone each lamp without its return glows through the other filaments; without both it cannot.
    'dead H1.58',
    'dead H2.58',
  ];
  expect(suspectIds(diagnosisOf(bench, lines)).join(' ')).toContain('H1.31 resistance + SP4/W20 resistance');
});
