/** The grammar as a table: line, and the events it stands for. */
import { describe, expect, test } from 'vitest';
import { HELP, parseLine } from '../../src/session/parse-line.js';
import { workbenchOf } from '../diagnosis/session-of.js';
import { circuit, eventsOf, typed } from './lamps.js';

const load = (name: string, value: string, more: object = {}): object => ({
  type: 'found',
  reading: { kind: 'load', load: name, value },
  ...more,
});
const volts = (red: string, black: string, value: number, step: number, more: object = {}): object => ({
  type: 'found',
  reading: { kind: 'volts', red, black, value: { value, step } },
  ...more,
});
const did = (action: object): object => ({ type: 'did', action });
const reverse = { when: [['gear', 'reverse']] };

describe('when a line is typed then it stands for its events:', () => {
  test.each<[string, readonly object[]]>([
    ['fails H1 H2 when gear reverse', [load('H1', 'off', reverse), load('H2', 'off', reverse)]],
    ['works h1', [load('H1', 'lit')]],
    ['H1 dim', [load('H1', 'dim')]],
    ['h1, h2 flickers', [load('H1', 'flickers'), load('H2', 'flickers')]],
    [
      'see H1 off when key on and gear reverse',
      [
        load('H1', 'off', {
          when: [
            ['key', 'on'],
            ['gear', 'reverse'],
          ],
        }),
      ],
    ],
    ['H1 off when reverse', [load('H1', 'off', reverse)]],
    ['told H1 off', [load('H1', 'off', { evidence: 'told' })]],
    ['told fails H1 H2', [load('H1', 'off', { evidence: 'told' }), load('H2', 'off', { evidence: 'told' })]],
    ['H1 lit symptom absent', [load('H1', 'lit', { symptom: 'absent' })]],
    ['look F7 blown', [{ type: 'found', reading: { kind: 'look', at: 'F7', value: 'blown' } }]],
    ['F7 blown', [{ type: 'found', reading: { kind: 'look', at: 'F7', value: 'blown' } }]],
    ['volts X3.1h 11.4', [volts('X3.1h', 'bat-', 11.4, 0.1)]],
    ['v x3.1h 11,4', [volts('X3.1h', 'bat-', 11.4, 0.1)]],
    ['VOLTS X3.1 harness 11.4', [volts('X3.1h', 'bat-', 11.4, 0.1)]],
    ['volts X3.1h GP2 450mV', [volts('X3.1h', 'GP2', 0.45, 0.001)]],
    ['volts F7.2 12.1/12.4', [volts('F7.2', 'bat-', 12.1, 0.1, { battery: { value: 12.4, step: 0.1 } })]],
    ['volts F7.2 12.1 when key on', [volts('F7.2', 'bat-', 12.1, 0.1, { when: [['key', 'on']] })]],
    ['drop GP2 bat- 0.80', [volts('GP2', 'bat-', 0.8, 0.01)]],
    ['drop X3.1 0.2', [volts('X3.1h', 'X3.1c', 0.2, 0.1)]],
    ['drop F7 12mV', [volts('F7.1', 'F7.2', 0.012, 0.001)]],
    ['drop W3 0.1', [volts('SP1', 'S1.30', 0.1, 0.1)]],
    [
      'ohms X3.2h body 0.3',
      [
        {
          type: 'found',
          reading: { kind: 'ohms', red: 'X3.2h', black: 'body', value: { value: 0.3, step: 0.1 } },
        },
      ],
    ],
    [
      'beep X3.2h gnd yes',
      [{ type: 'found', reading: { kind: 'continuity', red: 'X3.2h', black: 'body', value: 'beep' } }],
    ],
    [
      'amps W3 1.2',
      [{ type: 'found', reading: { kind: 'amps', at: 'W3', value: { value: 1.2, step: 0.1 } } }],
    ],
    [
      'testlamp X3.1h lit',
      [
        {
          type: 'found',
          reading: { kind: 'test lamp', red: 'X3.1h', black: 'bat-', value: 'lit', lamp: 'filament' },
        },
      ],
    ],
    [
      'test lamp led X3.1h GP2 off',
      [
        {
          type: 'found',
          reading: { kind: 'test lamp', red: 'X3.1h', black: 'GP2', value: 'off', lamp: 'LED' },
        },
      ],
    ],
    ['prove volts', [{ type: 'proved', mode: 'volts' }]],
    [
      'gear reverse, key on',
      [
        did({ do: 'operate', control: 'gear', position: 'reverse' }),
        did({ do: 'operate', control: 'key', position: 'on' }),
      ],
    ],
    ['engine running', [did({ do: 'engine', state: 'running' })]],
    ['unplug X3 X4', [did({ do: 'unplug', connector: 'X3' }), did({ do: 'unplug', connector: 'X4' })]],
    ['out F7', [did({ do: 'take out', part: 'F7' })]],
    ['new F7', [did({ do: 'fit new', part: 'F7' })]],
    ['jumper S2', [did({ do: 'jumper', between: ['S2.1', 'S2.2'] })]],
    ['jumper bat+ X3.1c', [did({ do: 'jumper', between: ['bat+', 'X3.1c'] })]],
    ['clean GP2', [did({ do: 'clean', at: 'GP2' })]],
    ['wiggle W3', [did({ do: 'wiggle', at: 'W3' })]],
    [
      'repair X3 cleaned contacts 15 min 5,50 price',
      [did({ do: 'repair', at: 'X3', how: 'cleaned contacts', minutes: 15, price: 5.5 })],
    ],
    ['symptom absent', [{ type: 'symptom', symptom: 'absent' }]],
    ['symptom is gone', [{ type: 'symptom', symptom: 'absent' }]],
    ['assume F7', [{ type: 'assumed', part: 'F7' }]],
    ['note tow bar, fitted: last week', [{ type: 'noted', text: 'tow bar, fitted: last week' }]],
    ['skip volts X3.1h: cannot reach', [{ type: 'skipped', test: 'volts X3.1h', why: 'cannot reach' }]],
    ['volts X3.1h cannot reach', [{ type: 'skipped', test: 'volts X3.1h', why: 'cannot reach' }]],
    ['complaint no lamps', [{ type: 'concern', concern: { complaint: 'no lamps' } }]],
    ['history sudden, after rain', [{ type: 'concern', concern: { history: ['sudden, after rain'] } }]],
    ['cause GP2 corroded ground', [{ type: 'concluded', at: 'GP2', words: 'corroded ground' }]],
    ['done', [{ type: 'closed' }]],
  ])('%s', (line, events) => {
    expect(eventsOf(line)).toEqual(events);
  });
});

describe('when a line depends on what went before then it is read so:', () => {
  test('ohms of an item need it out', () => {
    expect(parseLine('ohms F7 0.1', circuit)).toMatchObject({
      kind: 'error',
      at: 5,
      message: 'F7 is still fitted, and the rest of the circuit would be measured with it',
    });
    expect(eventsOf('ohms F7 0.1', typed('out F7'))).toMatchObject([
      { reading: { red: 'F7.1i', black: 'F7.2i' } },
    ]);
  });
  test('rest takes back what differs', () => {
    expect(eventsOf('rest', typed('key on', 'gear reverse', 'engine running'))).toEqual([
      did({ do: 'operate', control: 'key', position: 'off' }),
      did({ do: 'operate', control: 'gear', position: 'neutral' }),
      did({ do: 'engine', state: 'off' }),
    ]);
  });
  test('undo alone takes the last event that counts', () => {
    expect(eventsOf('undo', typed('key on', 'unplug X3', 'undo'))).toEqual([{ type: 'undone', number: 1 }]);
    expect(eventsOf('undo 2', typed('key on', 'unplug X3'))).toEqual([{ type: 'undone', number: 2 }]);
  });
  test('late takes the set-up of its time', () => {
    const parsed = parseLine('late 2 volts X3.1h 12.1', circuit, typed('key on', 'unplug X3', 'key off'));
    expect(parsed).toMatchObject({ kind: 'events', events: [{ type: 'found', before: 2 }] });
    const [echo] = parsed.kind === 'events' ? parsed.echo : [];
    expect(echo).toContain('key on');
    expect(echo).not.toContain('unplugged');
  });
});

test('when a reading is understood then the echo names value, unit and both probe points', () => {
  const parsed = parseLine('volts x3.1h 11,40 when gear reverse', circuit);
  expect(parsed).toMatchObject({
    echo: [
      '11.40 V: red X3.1h (left lamp connector pin 1, harness side), black battery negative, gear reverse',
    ],
  });
});

describe('when a line is wrong then the place, the reason and the mend are told:', () => {
  test.each<[string, number, string, string]>([
    ['vots X3.1h 11.4', 0, 'A line cannot start with "vots"', 'Did you mean volts?'],
    ['volts X3.9h 11.4', 6, 'X3 has no point "X3.9h"', 'It has: X3.1h, X3.1c, X3.2h, X3.2c.'],
    [
      'volts X3.1 11.4',
      6,
      'X3.1 has two sides',
      'Type X3.1h for the harness side or X3.1c for the component side; across the pin: drop X3.1.',
    ],
    ['volts X3.1h', 11, 'There is no value', 'Type the reading, for example 11.4, 11,4 or 450mV.'],
    ['volts F7 11.4', 6, 'F7 has more than one place to probe', 'Name the one: F7.1, F7.2, F7.1i, F7.2i.'],
    [
      'H1 runs',
      3,
      'A lamp is not "runs"; that is said of a motor',
      'Type one of: lit, dim, off, flickers, flashes fast, flashes, or cannot tell.',
    ],
    ['unplug X9', 7, 'This circuit has no connector "X9"', 'Did you mean X2?'],
    ['unplug F7', 7, 'This circuit has no connector "F7"', 'There is: X2, X3, X4.'],
    ['gear third', 5, 'gear has no position "third"', 'Its positions: neutral, reverse.'],
    ['key off', 0, 'key is off already', 'Nothing to record.'],
    ['plug X3', 0, 'X3 is plugged already', 'To part it: unplug X3'],
    [
      'out GP2',
      4,
      'GP2 is a ground: there is no item to take out of it or to put in',
      'For work on it: clean, tighten or repair GP2.',
    ],
    ['jumper GP2 GP2', 7, 'Both ends of the jumper are on GP2', 'Name two different points.'],
    ['undo 9', 0, 'There is no event 9', 'Nothing is recorded yet.'],
    ['late 3 H1 off', 5, 'There is no event 3', 'Nothing is recorded yet.'],
    ['undo', 4, 'There is nothing to undo', 'Record a step first.'],
    [
      'X3.1h 11.4',
      0,
      '"X3.1h" alone does not say what was done there',
      'Start with volts, ohms, beep, look ...: for example volts X3.1h 11.4',
    ],
    ['note', 4, 'The note is empty', 'For example: note tow bar fitted last week'],
    [
      'symptom maybe',
      8,
      'The complaint is present or absent, not "maybe"',
      'Type symptom present or symptom absent.',
    ],
    [
      'prove',
      5,
      'It is not said what was shown to work',
      'Type prove volts, ohms, test lamp, amps, clamp or scan.',
    ],
    ['done now', 5, '"now" is one word too many', 'Leave it out, or see help.'],
  ])('%s', (line, at, message, mend) => {
    expect(parseLine(line, circuit)).toEqual({ kind: 'error', at, message, mend });
  });
});

test.each(['', '   ', '# a remark'])('when the line is %j then nothing is meant', (line) => {
  expect(parseLine(line, circuit)).toEqual({ kind: 'empty' });
});

test.each([
  ['suspects', 'suspects', undefined],
  ['why f7', 'why', 'F7'],
  ['next', 'next', undefined],
  ['?', 'help', undefined],
  ['help volts', 'help', 'volts'],
  ['q', 'pause', undefined],
])('when %j is typed then it is the question %j', (line, query, about) => {
  expect(parseLine(line, circuit)).toEqual({ kind: 'query', query, about });
});

test('when the help shows a line as usage then its first word is one the grammar knows', () => {
  for (const [usage] of HELP.flatMap(([, lines]) => lines)) {
    const parsed = parseLine(usage, circuit);
    if (parsed.kind === 'error') expect(parsed.message, usage).not.toContain('cannot start with');
  }
});

test('when an event was typed then its echo is never empty', () => {
  const lines = ['key on', 'H1 off', 'prove ohms', 'assume F7', 'note a', 'cause GP2', 'done'];
  for (const line of lines) {
    const parsed = parseLine(line, circuit);
    expect(parsed.kind === 'events' && parsed.echo.every((echo: string) => echo.length > 3), line).toBe(true);
  }
});

test('when what was seen is typed without its load then the load is asked for', () => {
  expect(parseLine('lit', circuit)).toMatchObject({
    kind: 'error',
    message: '"lit" alone does not say of what',
    mend: expect.stringMatching(/^Name the load first: for example H1(\.\w+)? lit\.$/) as string,
  });
});

describe('when a control has a name of several words', () => {
  const shelf = async (name: string) => {
    const { circuit: own } = await workbenchOf(name);
    return (line: string) => parseLine(line, own);
  };
  const operated = (control: string, position: string) => [did({ do: 'operate', control, position })];

  test('then any of its words will do that no other control has', async () => {
    const parse = await shelf('washer');
    expect(parse('lever front')).toMatchObject({ events: operated('washer lever', 'front') });
    const truck = await shelf('starter-24v');
    expect(truck('master on')).toMatchObject({ events: operated('master switch', 'on') });
    const doors = await shelf('interior-lamps');
    expect(doors('driver open')).toMatchObject({ events: operated('driver door', 'open') });
    expect(parse('M1 stopped when key on and lever rear')).toMatchObject({
      events: [
        load('M1', 'stopped', {
          when: [
            ['key', 'on'],
            ['washer lever', 'rear'],
          ],
        }),
      ],
    });
  });

  test('then a word that two controls have is asked back', async () => {
    const parse = await shelf('interior-lamps');
    const mend = 'Did you mean driver door or passenger door?';
    expect(parse('door open')).toMatchObject({ kind: 'error', mend });
    expect(parse('H1 off when door open')).toMatchObject({
      mend: 'Type driver door open or passenger door open.',
    });
  });
});
