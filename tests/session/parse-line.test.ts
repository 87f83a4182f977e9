import { describe, expect, test } from 'vitest';
import { HELP, parseLine } from '../../src/session/parse-line.js';
import { bench, eventsOf, recordLines } from './bench-circuit.js';

/** Events of a line typed into a fresh session, or after the lines given. */
const events = (line: string, after: readonly string[] = []) =>
  eventsOf(parseLine(line, bench, recordLines(after)), line);
const echo = (line: string, after: readonly string[] = []) => {
  const parsed = parseLine(line, bench, recordLines(after));
  return parsed.kind === 'events' ? parsed.echo : parsed;
};
const found = (reading: object, more: object = {}) => ({ type: 'found', reading, ...more });
const did = (action: object) => ({ type: 'did', action });
const load = (id: string, value: string) => ({ kind: 'load', load: id, value });
const volts = (red: string, black: string, value: number, step: number) => ({
  kind: 'volts',
  red,
  black,
  value: { value, step },
});

describe('what loads do', () => {
  test.each([
    ['fails H1 H2.54', [found(load('H1', 'off')), found(load('H2.54', 'off'))]],
    [
      'fails h1, b1, m1 and k1',
      ['off', 'silent', 'stopped', 'silent'].map((value, i) =>
        found(load(['H1', 'B1', 'M1', 'K1'][i]!, value)),
      ),
    ],
    [
      'works H1 B1 M1 K1',
      ['lit', 'sounds', 'runs', 'clicks'].map((value, i) => found(load(['H1', 'B1', 'M1', 'K1'][i]!, value))),
    ],
    ['fails H1 when gear reverse', [found(load('H1', 'off'), { when: [['gear', 'reverse']] })]],
    [
      'fails H1 when gear in reverse, key on',
      [
        found(load('H1', 'off'), {
          when: [
            ['gear', 'reverse'],
            ['key', 'on'],
          ],
        }),
      ],
    ],
    ['fails H1 when reverse', [found(load('H1', 'off'), { when: [['gear', 'reverse']] })]],
    ['fails H3 when Turn Signal RIGHT', [found(load('H3', 'off'), { when: [['turn signal', 'right']] })]],
    ['works H1 when engine running', [found(load('H1', 'lit'), { when: [['engine', 'running']] })]],
    ['H1 dim', [found(load('H1', 'dim'))]],
    ['see H1 dim', [found(load('H1', 'dim'))]],
    ['hear K1 clicks', [found(load('K1', 'clicks'))]],
    ['H1, H3 flicker', [found(load('H1', 'flickers')), found(load('H3', 'flickers'))]],
    ['h2.58 = lit', [found(load('H2.58', 'lit'))]],
    ['H1 off symptom absent', [found(load('H1', 'off'), { symptom: 'absent' })]],
    [
      'H1 off symptom gone when key on',
      [found(load('H1', 'off'), { symptom: 'absent', when: [['key', 'on']] })],
    ],
    ['told H1 off', [found(load('H1', 'off'), { evidence: 'told' })]],
    [
      'told fails H1 H3',
      [found(load('H1', 'off'), { evidence: 'told' }), found(load('H3', 'off'), { evidence: 'told' })],
    ],
    ['H1 cannot tell when key on', [{ type: 'skipped', test: 'H1 when key on', why: 'cannot tell' }]],
    ['look F4 blown', [found({ kind: 'look', at: 'F4', value: 'blown' })]],
    ['F4 blown', [found({ kind: 'look', at: 'F4', value: 'blown' })]],
    ['look W3 chafed', [found({ kind: 'look', at: 'W3', value: 'broken' })]],
    ['look X3.1 green', [found({ kind: 'look', at: 'X3.1', value: 'corroded' })]],
  ])('when %j is typed then those findings are recorded', (line, expected) => {
    expect(events(line)).toEqual(expected);
  });
});

describe('readings', () => {
  test.each([
    ['volts X3.1h 11.4', found(volts('X3.1h', 'bat-', 11.4, 0.1))],
    ['VOLTS x3.1H 11,4', found(volts('X3.1h', 'bat-', 11.4, 0.1))],
    ['v X3.1 harness 11.4', found(volts('X3.1h', 'bat-', 11.4, 0.1))],
    ['volts X3.1h GP1 11.4', found(volts('X3.1h', 'GP1', 11.4, 0.1))],
    ['volts red X3.1h, black ground = 11.4 V', found(volts('X3.1h', 'body', 11.4, 0.1))],
    ['volts bat+ 12.60', found(volts('bat+', 'bat-', 12.6, 0.01))],
    [
      'volts X3.1h 11.4/12.4',
      found(volts('X3.1h', 'bat-', 11.4, 0.1), { battery: { value: 12.4, step: 0.1 } }),
    ],
    [
      'volts X3.1h 11.4 / 12.4 when key on',
      found(volts('X3.1h', 'bat-', 11.4, 0.1), {
        battery: { value: 12.4, step: 0.1 },
        when: [['key', 'on']],
      }),
    ],
    ['drop GP1 bat- 0.8', found(volts('GP1', 'bat-', 0.8, 0.1))],
    ['drop X3.1 450mV', found(volts('X3.1h', 'X3.1c', 0.45, 0.001))],
    ['drop W1 0.2', found(volts('G1.30', 'SP1', 0.2, 0.1))],
    ['drop F4 0,1', found(volts('F4.1', 'F4.2', 0.1, 0.1))],
    [
      'ohms X3.2h body 0.3 ohm',
      found({ kind: 'ohms', red: 'X3.2h', black: 'body', value: { value: 0.3, step: 0.1 } }),
    ],
    ['ohms X3.2h body OL', found({ kind: 'ohms', red: 'X3.2h', black: 'body', value: 'OL' })],
    [
      'ohms K1.85i K1.86i 1k2',
      found({ kind: 'ohms', red: 'K1.85i', black: 'K1.86i', value: { value: 1200, step: 100 } }),
    ],
    ['beep X3.2h body yes', found({ kind: 'continuity', red: 'X3.2h', black: 'body', value: 'beep' })],
    ['beep X3.2h body no beep', found({ kind: 'continuity', red: 'X3.2h', black: 'body', value: 'no beep' })],
    ['amps W3 1.2', found({ kind: 'amps', at: 'W3', value: { value: 1.2, step: 0.1 } })],
    ['amps X3.1 1.2A', found({ kind: 'amps', at: 'X3.1', value: { value: 1.2, step: 0.1 } })],
    ['amps F4.2 20mA', found({ kind: 'amps', at: 'F4.2', value: { value: 0.02, step: 0.001 } })],
    [
      'testlamp X3.1h lit',
      found({ kind: 'test lamp', red: 'X3.1h', black: 'bat-', value: 'lit', lamp: 'filament' }),
    ],
    [
      'test lamp X3.1h bat+ off',
      found({ kind: 'test lamp', red: 'X3.1h', black: 'bat+', value: 'off', lamp: 'filament' }),
    ],
    [
      'tl led X3.1h dim',
      found({ kind: 'test lamp', red: 'X3.1h', black: 'bat-', value: 'dim', lamp: 'LED' }),
    ],
    ['volts X3.1h cannot reach', { type: 'skipped', test: 'volts X3.1h', why: 'cannot reach' }],
    [
      'ohms X3.2h body no tool when key on',
      { type: 'skipped', test: 'ohms X3.2h body when key on', why: 'no tool' },
    ],
  ])('when %j is typed then that reading is recorded', (line, expected) => {
    expect(events(line)).toEqual([expected]);
  });

  test('when an item is out then one name means its own terminals', () => {
    const value = { value: 0.1, step: 0.1 };
    expect(events('ohms F4 0.1', ['out F4'])).toEqual([
      found({ kind: 'ohms', red: 'F4.1i', black: 'F4.2i', value }),
    ]);
    expect(events('beep H1 yes', ['out H1'])).toEqual([
      found({ kind: 'continuity', red: 'H1.1i', black: 'H1.31i', value: 'beep' }),
    ]);
    expect(events('ohms H2.54 0.1', ['out H2'])).toEqual([
      found({ kind: 'ohms', red: 'H2.54i', black: 'H2.31i', value }),
    ]);
    expect(events('ohms H2.54 GP1 0.1', ['out H2'])).toEqual([
      found({ kind: 'ohms', red: 'H2.54', black: 'GP1', value }),
    ]);
  });

  test('when a reading is taken then the echo names unit, both probe points and the set-up', () => {
    expect(echo('volts X3.1h 11.4', ['gear reverse'])).toEqual([
      '11.4 V: red X3.1h (lamp connector pin 1, harness side), black battery negative, gear in reverse',
    ]);
    expect(echo('volts x3.1c gp1 450mV', ['key on', 'unplug X3', 'jumper S1'])).toEqual([
      '0.450 V: red X3.1c (lamp connector pin 1, component side), black GP1 (main ground), key in on, X3 unplugged, jumper S1.1 to S1.2',
    ]);
  });
});

describe('actions', () => {
  test.each([
    ['gear reverse', [did({ do: 'operate', control: 'gear', position: 'reverse' })]],
    ['Gear = REVERSE', [did({ do: 'operate', control: 'gear', position: 'reverse' })]],
    ['gear in reverse', [did({ do: 'operate', control: 'gear', position: 'reverse' })]],
    [
      'key on, turn signal left',
      [
        did({ do: 'operate', control: 'key', position: 'on' }),
        did({ do: 'operate', control: 'turn signal', position: 'left' }),
      ],
    ],
    ['engine running', [did({ do: 'engine', state: 'running' })]],
    ['unplug X3', [did({ do: 'unplug', connector: 'X3' })]],
    ['out F4 H1', [did({ do: 'take out', part: 'F4' }), did({ do: 'take out', part: 'H1' })]],
    ['take out F4', [did({ do: 'take out', part: 'F4' })]],
    ['new F4', [did({ do: 'fit new', part: 'F4' })]],
    ['jumper S1.1 S1.2', [did({ do: 'jumper', between: ['S1.1', 'S1.2'] })]],
    ['jumper S1', [did({ do: 'jumper', between: ['S1.1', 'S1.2'] })]],
    ['jumper bat+ H1.1', [did({ do: 'jumper', between: ['bat+', 'H1.1'] })]],
    ['clean GP1', [did({ do: 'clean', at: 'GP1' })]],
    ['tighten X3.1', [did({ do: 'tighten', at: 'X3.1' })]],
    ['reseat K1', [did({ do: 'reseat', at: 'K1' })]],
    ['wiggle W3 W4', [did({ do: 'wiggle', at: 'W3' }), did({ do: 'wiggle', at: 'W4' })]],
    ['repair X3 cleaned contacts', [did({ do: 'repair', at: 'X3', how: 'cleaned contacts' })]],
    [
      'repair X3: cleaned contacts, new seal, 15 min, 5.50 price',
      [did({ do: 'repair', at: 'X3', how: 'cleaned contacts, new seal', minutes: 15, price: 5.5 })],
    ],
    [
      'repair X3 cleaned contacts [15 min] [5 price]',
      [did({ do: 'repair', at: 'X3', how: 'cleaned contacts', minutes: 15, price: 5 })],
    ],
  ])('when %j is typed then those actions are recorded', (line, expected) => {
    expect(events(line)).toEqual(expected);
  });

  test('when things are put back then only what was apart goes together', () => {
    expect(events('plug x3', ['unplug X3'])).toEqual([did({ do: 'plug', connector: 'X3' })]);
    expect(events('in F4', ['out F4'])).toEqual([did({ do: 'refit', part: 'F4' })]);
    expect(events('unjumper', ['jumper S1'])).toEqual([
      did({ do: 'remove jumper', between: ['S1.1', 'S1.2'] }),
    ]);
    expect(events('unjumper S1.2 S1.1', ['jumper S1'])).toHaveLength(1);
    expect(events('rest', ['key on', 'engine running'])).toEqual([
      did({ do: 'operate', control: 'key', position: 'off' }),
      did({ do: 'engine', state: 'off' }),
    ]);
  });

  test('when some controls stand so already then only the others are recorded', () => {
    expect(events('key on, gear reverse', ['key on'])).toEqual([
      did({ do: 'operate', control: 'gear', position: 'reverse' }),
    ]);
  });
});

describe('the record', () => {
  test.each([
    [
      'note tow bar fitted, last week: by a shop',
      { type: 'noted', text: 'tow bar fitted, last week: by a shop' },
    ],
    ['skip volts X3.1h: cannot reach', { type: 'skipped', test: 'volts X3.1h', why: 'cannot reach' }],
    ['skip the wiggle test no tool', { type: 'skipped', test: 'the wiggle test', why: 'no tool' }],
    ['prove volts', { type: 'proved', mode: 'volts' }],
    ['prove test lamp', { type: 'proved', mode: 'test lamp' }],
    ['prove beep', { type: 'proved', mode: 'ohms' }],
    ['assume F4', { type: 'assumed', part: 'F4' }],
    ['symptom absent', { type: 'symptom', symptom: 'absent' }],
    ['cause GP1 corroded ground', { type: 'concluded', at: 'GP1', words: 'corroded ground' }],
    ['cause X3.1', { type: 'concluded', at: 'X3.1', words: '' }],
    ['complaint no lamps at all', { type: 'concern', concern: { complaint: 'no lamps at all' } }],
    ['history sudden, after rain', { type: 'concern', concern: { history: ['sudden, after rain'] } }],
    ['done', { type: 'closed' }],
  ])('when %j is typed then that is recorded', (line, expected) => {
    expect(events(line)).toEqual([expected]);
  });

  test.each([
    ['suspects', { kind: 'query', query: 'suspects', about: undefined }],
    ['why f4', { kind: 'query', query: 'why', about: 'F4' }],
    ['why', { kind: 'query', query: 'why', about: undefined }],
    ['help volts', { kind: 'query', query: 'help', about: 'volts' }],
    ['q', { kind: 'query', query: 'pause', about: undefined }],
    ['', { kind: 'empty' }],
    ['  # remark', { kind: 'empty' }],
  ])('when %j is typed then nothing is recorded', (line, expected) => {
    expect(parseLine(line, bench)).toEqual(expected);
  });

  test('when undo is typed again and again then events go from the last to the first', () => {
    const lines = ['key on', 'H1 off', 'note x'];
    expect(events('undo', lines)).toEqual([{ type: 'undone', number: 3 }]);
    expect(events('undo', [...lines, 'undo'])).toEqual([{ type: 'undone', number: 2 }]);
    expect(events('undo', [...lines, 'undo', 'undo'])).toEqual([{ type: 'undone', number: 1 }]);
    expect(parseLine('undo', bench, recordLines([...lines, 'undo', 'undo', 'undo']))).toMatchObject({
      kind: 'error',
      message: 'There is nothing to undo',
    });
  });

  test('when an undo is undone then the echo says that the event counts again', () => {
    expect(echo('undo 2', ['key on', 'undo'])).toEqual(['event 1 counts again']);
    expect(echo('undo 1', ['H1 off'])).toEqual([
      'event 1 counts no more: H1 (left lamp): off, everything at rest',
    ]);
  });

  test('when a line is late then its meaning is that of the earlier set-up', () => {
    const lines = ['key on', 'out F4'];
    expect(events('late 2 volts F4.1 12.5', lines)).toEqual([
      found(volts('F4.1', 'bat-', 12.5, 0.1), { before: 2 }),
    ]);
    expect(echo('late 1 H1 off', lines)).toEqual([
      'H1 (left lamp): off, everything at rest, observed before event 1',
    ]);
    // F4 was still fitted then.
    expect(parseLine('late 2 ohms F4 0.1', bench, recordLines(lines))).toMatchObject({
      kind: 'error',
      at: 12,
    });
    expect(events('late 2 unplug X3', lines)).toEqual([
      { type: 'did', action: { do: 'unplug', connector: 'X3' }, before: 2 },
    ]);
  });
});

describe('what cannot be understood', () => {
  test.each<[line: string, at: number, message: RegExp, mend: RegExp, after?: readonly string[]]>([
    ['vlots X3.1h 11', 0, /cannot start with "vlots"/, /Did you mean volts\?/],
    ['volts X3.1 11', 6, /X3.1 has two sides/, /X3.1h.*X3.1c/],
    ['volts X9.1h 11', 6, /no point "X9.1h"/, /Did you mean X3.1h\?/],
    ['volts F4.3 11', 6, /F4 has no point "F4.3"/, /F4.1, F4.1i|F4.1, F4.2/],
    ['volts F4 11', 6, /F4 has more than one place/, /F4.1/],
    ['volts W3 11', 6, /wire with two ends/, /SP1 or S2.30/],
    ['volts X3.1h', 11, /no value/, /11.4/],
    ['volts', 5, /probe point is missing/, /X3.1h/],
    ['volts X3.1h 11.4A', 12, /"11.4A" is in amps, but this reading is in volts/, /amps/],
    ['volts X3.1h X3.1h 0', 18, /Both probes are on X3.1h/, /two different/],
    ['volts X3.1h zz 3', 12, /no point "zz"/, /Points look like/],
    ['volts X3.1h 11.4 when', 21, /control and its position are missing/, /gear/],
    ['volts X3.1h 11.4 when gaer reverse', 22, /no control "gaer"/, /Did you mean gear\?/],
    ['volts X3.1h 11.4 when gear revers', 27, /no position "revers"/, /Did you mean reverse\?/],
    ['fails', 5, /load is missing/, /H1/],
    ['fails F4', 6, /F4 is a fuse/, /look F4/],
    ['fails H2', 6, /several filaments/, /H2.54, H2.58/],
    ['fails H9', 6, /no load "H9"/, /Did you mean H1\?/],
    ['fails H1 when off', 14, /More than one control has the position "off"/, /key off or turn signal off/],
    ['H1 clicks', 3, /said of a relay/, /lit, dim/],
    ['H1', 2, /not said what H1 does/, /lit/],
    ['X3.1h 11.4', 0, /alone does not say what/, /volts X3.1h/],
    ['gear', 4, /position of gear is missing/, /neutral, reverse/],
    ['gear neutral', 0, /gear is neutral already/, /Nothing/],
    ['unplug F4', 7, /no connector "F4"/, /X3/],
    ['unplug X3', 0, /unplugged already/, /plug X3/, ['unplug X3']],
    ['plug X3', 0, /plugged already/, /unplug X3/],
    ['out F4', 0, /out already/, /in F4/, ['out F4']],
    ['in F4', 0, /not out/, /out F4/],
    ['out X3', 4, /X3 is a connector/, /unplug X3/],
    ['jumper S1', 0, /jumper between S1.1 and S1.2 already/, /unjumper/, ['jumper S1']],
    ['jumper GP1 GP1', 7, /Both ends/, /two different/],
    ['unjumper', 8, /No jumper is fitted/, /jumper A B/],
    ['ohms F4 0.1', 5, /still fitted/, /out F4.*ohms F4.1 F4.2/],
    ['ohms K1 85', 5, /K1 has 4 terminals/, /K1.85i/],
    ['drop X3 1', 5, /X3 has 2 pins/, /X3.1, X3.2/],
    ['amps F4 1', 5, /where at F4/, /F4.1, F4.2/],
    ['beep X3.2h body 0.3', 16, /is a number/, /ohms A B 0.3/],
    ['repair X3', 9, /not said what was done/, /repair X3/],
    ['repair X3 15 min', 10, /not said what was done/, /repair X3/],
    ['skip volts X3.1h', 5, /why the test was skipped/, /cannot reach/],
    ['prove me', 6, /no kind of meter/, /prove volts/],
    ['symptom maybe', 8, /present or absent/, /symptom present/],
    ['undo 9', 0, /no event 9/, /1 to 1/, ['key on']],
    ['undo x', 5, /not the number of an event/, /list/],
    ['undo 1', 0, /undone already/, /undo 2/, ['key on', 'undo 1']],
    ['late', 4, /number of the event is missing/, /late 5/],
    ['late 7 H1 off', 5, /no event 7/, /Nothing is recorded/],
    ['late 1 note x', 7, /Only findings and actions/, /without late/, ['key on']],
    ['late 1 H1 off', 7, /neither a finding nor an action/, /list/, ['note x']],
    ['late 1 suspects', 7, /no place in time/, /without late/, ['key on']],
    ['done now', 5, /one word too many/, /help/],
    ['note', 4, /note is empty/, /note tow bar/],
    ['cause', 5, /part, wire or point is missing/, /For example/],
  ])('when %j is typed then the error points at %d', (line, at, message, mend, after = []) => {
    const parsed = parseLine(line, bench, recordLines(after));
    expect(parsed).toMatchObject({ kind: 'error', at });
    if (parsed.kind !== 'error') return;
    expect(parsed.message).toMatch(message);
    expect(parsed.mend).toMatch(mend);
  });
});

test('when any usage of the help page is typed on a circuit with those names then its first word is known', () => {
  for (const [, lines] of HELP) {
    for (const [usage] of lines) {
      const parsed = parseLine(
        usage,
        bench,
        recordLines(['key on', 'key off', 'key on', 'key off', 'key on']),
      );
      // Names of the examples may be unknown here; the grammar must not be.
      if (parsed.kind === 'error') expect(parsed.message).not.toMatch(/cannot start|too many/);
    }
  }
});
