/** A fitted severity in words: two digits at most, and no limit that the readings did not set. */
import { expect, test } from 'vitest';
import { severityWords } from '../../src/report/cause.js';

test.each([
  ['ohm', 3.14159, 41.2, 'between 3.1 ohm and 41 ohm'],
  ['ohm', 212.4, 1e9, 'open, or more than 210 ohm'],
  ['ohm', 15_300, 2_400_000, 'between 15 kohm and 2.4 Mohm'],
  ['ohm', 2e7, Infinity, 'open'],
  ['ohm', 0.001, 0.5, 'at most 0.5 ohm'],
  ['ohm', 0.001, Infinity, undefined],
  ['W', 4.6, 5.4, 'between 4.6 and 5.4 W'],
] as const)('when %s from %s to %s fits then it reads %s', (unit, low, high, words) => {
  expect(severityWords({ severity: { unit, low, high } })).toBe(words);
});
