/** Events and set-ups in words, as they are echoed and listed. */
import { expect, test } from 'vitest';
import { describeEvent } from '../../src/session/describe-event.js';
import { describeSetUp } from '../../src/session/describe.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';
import { atRest } from '../../src/session/setup.js';
import { kinds, recordKinds } from './kinds-circuit.js';

test.each<[line: string, echo: string, after?: readonly string[]]>([
  ['swap H1 H2', 'swap H1 (left lamp) and H2 (right lamp)'],
  ['knowngood H1', 'fit a known-good item and keep the own one: H1 (left lamp)'],
  ['in H1', 'refit the item that was there: H1 (left lamp)', ['knowngood H1']],
  ['lamp F1', 'test lamp in place of F1 (left fuse)'],
  ['unlamp', 'take the test lamp off: F1 (left fuse)', ['lamp F1']],
  ['wait 30', 'everything off and left alone for 30 min'],
  ['reset F9', 'reset F9 (hand breaker)'],
  ['clamp F1.2 1.2', '1.2 A: clamp around F1.2 (left fuse terminal 2), everything at rest'],
  ['fuselamp F1 lit', 'test lamp in place of F1 (left fuse): lit, test lamp in place of F1', ['lamp F1']],
  ['scan A1.2 pressed', 'scan value pressed: A1.2 (body module terminal 2), everything at rest'],
  ['scan A1.3 4.9', 'scan value 4.9 V: A1.3 (body module terminal 3), everything at rest'],
  [
    'scan A1.2 no answer',
    'no answer from A1 (body module), asked for A1.2 (body module terminal 2), everything at rest',
  ],
  [
    'volts lowz F1.2 3.2',
    '3.2 V: red F1.2 (left fuse terminal 2), black battery negative, low-impedance meter, everything at rest',
  ],
  [
    'volts loaded F1.2 H1.31 12.3',
    '12.3 V: red F1.2 (left fuse terminal 2), black H1.31 (left lamp terminal 31), with a test lamp across, everything at rest',
  ],
  ['prove clamp', 'clamp: the meter was shown to work'],
  ['prove scan', 'the scan tool was shown to work'],
])('when %j is recorded then it is echoed in full', (line, echo, after = []) => {
  expect(parseLine(line, kinds, recordKinds(after))).toMatchObject({ kind: 'events', echo: [echo] });
});

test.each<[readonly string[], readonly string[]]>([
  [['swap H1 H2'], ['H1 holds the item of H2', 'H2 holds the item of H1']],
  [
    ['knowngood H1', 'out F2'],
    ['F2 taken out', 'H1 holds a known-good item'],
  ],
  [['lamp F1'], ['test lamp in place of F1']],
  [['wait 30', 'wait 10'], ['left alone for 40 min']],
])('when %j was done then the set-up says so', (lines, words) => {
  expect(describeSetUp(kinds, foldCase(kinds, recordKinds(lines)).now)).toEqual(words);
});

test('when the drawing was corrected then the list says how', () => {
  const event = (words: string) =>
    ({ type: 'redrawn', circuit: { id: 'kinds', hash: 'h', file: 'f' }, words }) as const;
  expect(describeEvent(kinds, event('W4 goes to SP2'), atRest(kinds))).toBe(
    'the drawing was corrected: W4 goes to SP2',
  );
  expect(describeEvent(kinds, event(''), atRest(kinds))).toBe('the drawing was corrected');
});
