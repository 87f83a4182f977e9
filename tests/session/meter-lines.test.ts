/** Clamp, lamp in place of a fuse, scan tool, low-impedance or loaded voltmeter, and what the newer kinds of loads do. */
import { describe, expect, test } from 'vitest';
import { parseLine } from '../../src/session/parse-line.js';
import { eventsIn, kinds, recordKinds } from './kinds-circuit.js';

const readings = (line: string, after: readonly string[] = []) =>
  eventsIn(line, recordKinds(after)).map((event) => (event.type === 'found' ? event.reading : event));

test.each<[string, object, after?: readonly string[]]>([
  ['clamp W3 1.2', { kind: 'clamp', at: 'W3', value: { value: 1.2, step: 0.1 } }],
  ['clamp around f1.2 450 mA', { kind: 'clamp', at: 'F1.2', value: { value: 0.45, step: 0.001 } }],
  ['fuselamp F1 lit', { kind: 'fuse lamp', part: 'F1', value: 'lit' }, ['lamp F1']],
  ['fuse lamp F1 glows', { kind: 'fuse lamp', part: 'F1', value: 'dim' }, ['lamp F1']],
  ['scan A1.2 Pressed', { kind: 'scan', module: 'A1', input: '2', value: 'pressed' }],
  ['scan a1.3 4.98 V', { kind: 'scan', module: 'A1', input: '3', value: { value: 4.98, step: 0.01 } }],
  ['scan A1.2 no answer', { kind: 'scan', module: 'A1', input: '2', value: 'no answer' }],
  [
    'volts lowz F1.2 3.2',
    { kind: 'volts', red: 'F1.2', black: 'bat-', value: { value: 3.2, step: 0.1 }, mode: 'low impedance' },
  ],
  [
    'drop low-z F1 0.1',
    { kind: 'volts', red: 'F1.1', black: 'F1.2', value: { value: 0.1, step: 0.1 }, mode: 'low impedance' },
  ],
  [
    'volts loaded F1.2 H1.31 12.3',
    { kind: 'volts', red: 'F1.2', black: 'H1.31', value: { value: 12.3, step: 0.1 }, mode: 'loaded' },
  ],
  ['drop F1 12 mV', { kind: 'volts', red: 'F1.1', black: 'F1.2', value: { value: 0.012, step: 0.001 } }],
  ['drop F1 1.2mV', { kind: 'volts', red: 'F1.1', black: 'F1.2', value: { value: 0.0012, step: 0.0001 } }],
  ['testlamp GP1 bat+ lit', { kind: 'test lamp', red: 'GP1', black: 'bat+', value: 'lit', lamp: 'filament' }],
])('when %j is typed then it is understood', (line, reading, after) => {
  expect(readings(line, after)).toEqual([reading]);
});

test('when the battery was read beside a clamp then both are kept', () => {
  expect(eventsIn('clamp W3 1.2/12.4 when key on')).toEqual([
    {
      type: 'found',
      reading: { kind: 'clamp', at: 'W3', value: { value: 1.2, step: 0.1 } },
      battery: { value: 12.4, step: 0.1 },
      when: [['key', 'on']],
    },
  ]);
});

test.each<[line: string, message: RegExp, mend: RegExp]>([
  ['clamp F1 1', /where at F1 the clamp is/, /F1.1, F1.2/],
  ['clamp W3 -1', /without a sign/, /Type 1\./],
  ['fuselamp F1 lit', /No test lamp hangs in place of F1/, /lamp F1/],
  ['scan A1.9 pressed', /no module input "A1.9"/, /A1\.[23]/],
  ['scan A1.7 pressed', /no module input "A1.7"/, /A1\.[23]/],
  ['scan A1.2 squeezed', /never reads "squeezed"/, /released, pressed, volts such as 4.9, no answer/],
  ['scan A1.2', /what the scan tool shows/, /released/],
])('when %j is typed then it is refused in words that help', (line, message, mend) => {
  expect(parseLine(line, kinds)).toMatchObject({
    kind: 'error',
    message: expect.stringMatching(message) as string,
    mend: expect.stringMatching(mend) as string,
  });
});

describe('when a load of a newer kind is watched then its own words fit:', () => {
  const sight = (line: string) =>
    readings(line).map((reading) => ('value' in reading ? reading.value : undefined));
  test.each<[string, string]>([
    ['H1 flashes', 'flashes'],
    ['H1 flashes fast', 'flashes fast'],
    ['H1 blinks', 'flashes'],
    ['H4 lit', 'lit'],
    ['H4 dead', 'off'],
    ['R1 hot', 'hot'],
    ['R1 warm', 'lukewarm'],
    ['R1 dead', 'cold'],
    ['Y1 clicks', 'clicks'],
    ['Y1 dead', 'silent'],
    ['B1 buzzes', 'sounds'],
    ['A9 works', 'works'],
    ['A9 off', 'dead'],
  ])('%s', (line, value) => expect(sight(line)).toEqual([value]));
  test('fails and works for all of them', () => {
    expect(sight('fails H4 R1 Y1 B1 A9')).toEqual(['off', 'cold', 'silent', 'silent', 'dead']);
    expect(sight('works H4 R1 Y1 B1 A9')).toEqual(['lit', 'hot', 'clicks', 'sounds', 'works']);
  });
  test('a word of another kind is refused with the words that fit', () => {
    expect(parseLine('R1 flashes', kinds)).toMatchObject({
      message: 'A heater is not "flashes"; that is said of a lamp',
      mend: 'Type one of: hot, lukewarm, cold, or cannot tell.',
    });
  });
});
