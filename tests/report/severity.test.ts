/** A fitted severity in words: two digits at most, ranges rounded outwards, and no limit that the readings did not set. */
import { expect, test } from 'vitest';
import { severityWords, suspectSeverities } from '../../src/report/severity-words.js';
import { fault } from './report-case.js';

test.each([
  ['ohm', 4.12, 3.61, 4.88, '4.1 ohm, 3.6 to 4.9'],
  ['ohm', 1e9, 212.4, 1e11, 'open circuit (at least 210 ohm)'],
  ['ohm', 90, 20.1, 1e11, '20 ohm to an open circuit'],
  ['ohm', 15_300, 800, 2_400_000, '15 kohm, 800 ohm to 2.4 Mohm'],
  ['ohm', 1e9, 2e7, Infinity, 'open circuit'],
  ['ohm', 0.1, 0.001, 0.501, 'at most 0.51 ohm'],
  ['ohm', 1e9, 0.001, Infinity, undefined],
  ['ohm', 4.1, 4.1, 4.1, '4.1 ohm'],
  ['W', 5, 4.62, 5.38, '5 W, 4.6 to 5.4'],
] as const)('when %s %s, %s to %s fits then it reads %s', (unit, value, low, high, words) => {
  expect(severityWords({ unit, value, low, high, steals: undefined })).toBe(words);
});

const bad = {
  unit: 'ohm',
  value: 4.1,
  low: 3.6,
  high: 4.9,
  steals: { volts: 1.93, condition: 'with pedal down' },
} as const;
const ground = fault('GP5', 'GP5', 'high resistance or open: ground point GP5 (left tail ground)');

test('when a severity is told in full then place, volts lost and condition stand with it', () => {
  expect(suspectSeverities({ faults: [ground], severities: [bad] }, 'with place')).toEqual([
    '4.1 ohm, 3.6 to 4.9, at ground point GP5 (left tail ground); it takes 1.9 V with pedal down',
  ]);
});

test('when two faults are suspected together then each severity names its place, and unknown ones are left out', () => {
  const pin = fault('X1.1', 'X1', 'high resistance or open: pin 1 of connector X1');
  expect(suspectSeverities({ faults: [pin, ground], severities: [undefined, bad] }, 'without place')).toEqual(
    ['4.1 ohm, 3.6 to 4.9, at ground point GP5 (left tail ground); it takes 1.9 V with pedal down'],
  );
});

test('when it takes no volts to speak of then none are told', () => {
  const mild = { ...bad, steals: { volts: 1e-20, condition: 'with everything at rest' } };
  expect(suspectSeverities({ faults: [ground], severities: [mild] }, 'without place')).toEqual([
    '4.1 ohm, 3.6 to 4.9',
  ]);
});

test('when it is an open circuit then it is said in words', () => {
  const open = { unit: 'ohm', value: 1e9, low: 2e7, high: 1e11, steals: undefined } as const;
  expect(suspectSeverities({ faults: [ground], severities: [open] }, 'with place')).toEqual([
    'open circuit at ground point GP5 (left tail ground)',
  ]);
});
