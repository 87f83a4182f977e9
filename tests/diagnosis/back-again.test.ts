/** A complaint that comes back by a word which a weak battery could explain too: what comes and goes may be there again, or not. */
import { expect, test } from 'vitest';
import { diagnosisOf, suspectIds, workbenchOf } from './session-of.js';

/** The feed of the pump fails, is good, and fails again. The solenoid has little more than the volts at which it might be silent. */
const lines = [
  ...['key on', 'Y1 silent', 'M1 stopped', 'prove volts', 'volts bat+ 11.31', 'Y1 clicks'],
  ...['volts F1.2 11.22', 'Y1 silent', 'volts F1.2 0.00'],
];

test('when the solenoid is silent again then an open feed is back', async () => {
  const bench = await workbenchOf('fuel-pump');
  const diagnosis = diagnosisOf(bench, lines);
  expect(diagnosis.gone).toBe(false);
  expect(suspectIds(diagnosis)).toContain('W4 resistance');
});

test('when the complaint is seen to have gone then the diagnosis says so', async () => {
  const bench = await workbenchOf('fuel-pump');
  const { gone, asks } = diagnosisOf(bench, lines.slice(0, 6));
  expect(gone).toBe(true);
  expect(asks.join()).toMatch(/complaint is gone just now/);
});

test('when somebody says that the complaint is still there then it is not gone', async () => {
  const bench = await workbenchOf('fuel-pump');
  expect(diagnosisOf(bench, [...lines.slice(0, 6), 'symptom present']).gone).toBe(false);
  expect(diagnosisOf(bench, lines).asks).toEqual([]);
});

test('when a motor that stood still runs slowly then its complaint has not gone', async () => {
  const bench = await workbenchOf('blower');
  const stopped = ['key on', 'blower switch 1', 'M1 stopped'];
  expect(diagnosisOf(bench, [...stopped, 'M1 slow']).gone).toBe(false);
  expect(diagnosisOf(bench, [...stopped, 'M1 runs']).gone).toBe(true);
});

test('when a load of which nobody knows at how few volts it works did, did not and does again then an open contact that comes and goes explains it', async () => {
  const bench = await workbenchOf('accessory-socket');
  const lines = [
    'key on',
    'E1 works',
    'E1 dead',
    'prove volts',
    'volts K1.86 0.05',
    'E1 works',
    'volts K1.86 12.3',
  ];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('F3.1 resistance');
});
