/** A zero is proof only when the same meter mode was shown to work in the session. */
import { describe, expect, test } from 'vitest';
import { foldCase } from '../../src/session/fold.js';
import { bench, recordLines } from './bench-circuit.js';
import { kinds, recordKinds } from './kinds-circuit.js';

const proved = (...lines: string[]): boolean => {
  const [first] = foldCase(bench, recordLines(lines)).timeline.filter((step) => step.kind === 'finding');
  return first!.finding.proved;
};

test.each([
  'volts X3.1h 0.00',
  'volts X3.1h 0.04',
  'volts X3.1h -0.03',
  'volts X3.1h 1',
  'ohms X3.2h body OL',
  'beep X3.2h body no',
  'amps W3 0.00',
  'testlamp X3.1h off',
])('when %j is all there is then it is not proved', (line) => expect(proved(line)).toBe(false));

test.each([
  'volts X3.1h 0.06',
  'volts X3.1h 1.0',
  'ohms X3.2h body 4000',
  'beep X3.2h body yes',
  'amps W3 0.01',
  'testlamp X3.1h dim',
  'H1 off',
  'F4 good',
])('when %j is all there is then it needs no proof', (line) => expect(proved(line)).toBe(true));

test.each([
  ['volts X3.1h 0.0', 'prove volts'],
  ['volts X3.1h 0.0', 'volts bat+ 6.0'],
  ['volts X3.1h 0.0', 'volts bat- bat+ -12.6'],
  ['ohms X3.2h body OL', 'prove ohms'],
  ['ohms X3.2h body OL', 'beep X3.1h X3.2h yes'],
  ['beep X3.2h body no', 'ohms X3.2h body 9.9'],
  ['amps W3 0.0', 'amps W1 0.5'],
  ['testlamp X3.1h off', 'testlamp bat+ lit'],
])('when %j is followed by %j then it is proved', (line, proof) => {
  expect(proved(line, proof)).toBe(true);
  expect(proved(line, proof, 'undo')).toBe(false);
});

test.each([
  ['volts X3.1h 0.0', 'volts bat+ 5.9'],
  ['volts X3.1h 0.0', 'prove ohms'],
  ['volts X3.1h 0.0', 'testlamp bat+ lit'],
  ['ohms X3.2h body OL', 'ohms X3.2h body 10'],
  ['testlamp X3.1h off', 'testlamp bat+ dim'],
])('when %j is followed by %j then it is still not proved', (line, other) =>
  expect(proved(line, other)).toBe(false),
);

describe('clamp, lamp in place of a fuse, scan tool', () => {
  const firstProved = (...lines: readonly string[]): boolean => {
    const findings = foldCase(kinds, recordKinds(lines)).timeline.filter((step) => step.kind === 'finding');
    return findings[0]!.finding.proved;
  };
  test.each<[boolean, readonly string[]]>([
    [false, ['clamp W3 0.0']],
    [false, ['clamp W3 0.05']],
    [true, ['clamp W3 0.06']],
    [true, ['clamp W3 0.0', 'clamp W1 0.5']],
    [false, ['clamp W3 0.0', 'clamp W1 0.4']],
    // Another instrument proves nothing of the clamp.
    [false, ['clamp W3 0.0', 'amps W1 5.0']],
    [true, ['clamp W3 0.0', 'prove clamp']],
    [false, ['lamp F1', 'fuselamp F1 off']],
    [true, ['lamp F1', 'fuselamp F1 off', 'testlamp bat+ lit']],
    [true, ['lamp F1', 'fuselamp F1 off', 'fuselamp F1 lit when key on']],
    [false, ['scan A1.2 no answer']],
    [true, ['scan A1.2 no answer', 'scan A1.3 4.9']],
    [true, ['scan A1.2 released']],
    // Millivolts over a fuse are as good as nothing until the meter has shown more.
    [false, ['drop F1 12 mV']],
    [true, ['drop F1 12 mV', 'volts bat+ 12.6']],
  ])('the first finding is proved: %j by %j', (expected, lines) => {
    expect(firstProved(...lines)).toBe(expected);
  });
});
