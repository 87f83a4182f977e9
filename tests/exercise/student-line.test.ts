import { expect, test } from 'vitest';
import { studentLine } from '../../src/exercise/student-line.js';
import { workbenchOf } from '../diagnosis/session-of.js';

const { circuit } = await workbenchOf('reversing-lamps');
const read = (text: string) => studentLine(text, circuit, []);

test.each([
  ['volts F7.2', { kind: 'volts', red: 'F7.2', black: 'bat-' }],
  ['volts F7.2 GP2', { kind: 'volts', red: 'F7.2', black: 'GP2' }],
  ['drop X3.1 when gear reverse', { kind: 'volts', red: 'X3.1h', black: 'X3.1c' }],
  ['ohms F7.2 body', { kind: 'ohms', red: 'F7.2', black: 'body' }],
  ['beep F7.1 body', { kind: 'continuity', red: 'F7.1', black: 'body' }],
  ['clamp W3', { kind: 'clamp', at: 'W3' }],
  ['testlamp X3.1h', { kind: 'test lamp', red: 'X3.1h' }],
  ['look X3', { kind: 'look', at: 'X3' }],
  ['H1', { kind: 'load', load: 'H1' }],
  ['works H1?', { kind: 'load', load: 'H1' }],
  ['fails H1 when key on', { kind: 'load', load: 'H1' }],
])('when %s is typed without a reading then it is a question to the vehicle', (text, reading) => {
  const line = read(text);
  expect(line).toMatchObject({ kind: 'events', events: [{ type: 'found', reading }] });
});

test('when a stroke ends a test then the battery is read beside it', () => {
  expect(read('volts F7.2 when gear reverse /')).toMatchObject({
    events: [{ when: [['gear', 'reverse']], battery: {} }],
  });
});

test.each([
  'volts F7.2 12.4',
  'ohms F7.2 body 0.2',
  'H1 off',
  'H1 lit when gear reverse',
  'told H1 off',
  'look X3 good',
])('when a reading is made up with %s then it is refused', (text) => {
  expect(read(text)).toMatchObject({ kind: 'error', message: expect.stringContaining('the vehicle gives') });
});

test.each([
  ['predict low', { type: 'predicted', words: 'low' }],
  ['clears F7 open', { type: 'claimed', at: 'F7', of: 'open' }],
  ['clears X3.1', { type: 'claimed', at: 'X3.1', of: '' }],
  ['cause X3 bad pin', { type: 'concluded', at: 'X3' }],
  ['unplug X3', { type: 'did' }],
])('when %s is typed then it is recorded as such', (text, event) => {
  expect(read(text)).toMatchObject({ kind: 'events', events: [event] });
});

test.each([
  ['late 3 volts F7.2', 'order in which it is typed'],
  ['symptom absent', 'itself notes'],
  ['clears Q9', 'no part, wire or point'],
  ['predict', 'not said what is expected'],
  ['volts Q9', 'no point'],
  ['gibberish', 'cannot start'],
])('when %s is typed then it is said what is wrong', (text, words) => {
  expect(read(text)).toMatchObject({ kind: 'error', message: expect.stringContaining(words) });
});
