/** Severities as a session expects them. */
import { expect, test } from 'vitest';
import { severityRange } from '../../src/files/severity-range.js';

test.each([
  ['2 to 5 ohm', { low: 2, high: 5, unit: 'ohm' }],
  ['800 ohm to 2.5 kohm', { low: 800, high: 2500, unit: 'ohm' }],
  ['20 ohm to open', { low: 20, high: Infinity, unit: 'ohm' }],
  ['open', { low: 1e7, high: Infinity, unit: 'ohm' }],
  ['4.5 W', { low: 4.5, high: 4.5, unit: 'W' }],
  ['0 to 6 V', { low: 0, high: 6, unit: 'V' }],
] as const)('when it reads %s then it is that range', (text, range) => {
  expect(severityRange(text)).toEqual(range);
});

test.each(['', 'much', '2 to 5', '5 to 2 ohm', '2 V to open', '2 ohm to 5 V', '1.2.3 ohm'])(
  'when it reads "%s" then it is none',
  (text) => {
    expect(severityRange(text)).toBeUndefined();
  },
);
