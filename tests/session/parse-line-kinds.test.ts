/** The grammar on a circuit with every kind of load, lamps with two filaments, and controls whose names hold spaces. */
import { describe, expect, test } from 'vitest';
import { parseLine } from '../../src/session/parse-line.js';
import { bench, eventsOf, recordLines } from './bench-circuit.js';

const events = (line: string, after: readonly string[] = []) =>
  eventsOf(parseLine(line, bench, recordLines(after)), line);
const found = (reading: object, more: object = {}) => ({ type: 'found', reading, ...more });
const load = (id: string, value: string, more: object = {}) => found({ kind: 'load', load: id, value }, more);
const loads = (values: Readonly<Record<string, string>>) =>
  Object.entries(values).map(([id, value]) => load(id, value));
const operate = (control: string, position: string) => ({
  type: 'did',
  action: { do: 'operate', control, position },
});

test.each<[string, readonly object[]]>([
  ['fails h1, b1, m1 and k1', loads({ H1: 'off', B1: 'silent', M1: 'stopped', K1: 'silent' })],
  ['works H1 B1 M1 K1', loads({ H1: 'lit', B1: 'sounds', M1: 'runs', K1: 'clicks' })],
  ['fails H1 H2.54', loads({ H1: 'off', 'H2.54': 'off' })],
  ['h2.58 = lit', loads({ 'H2.58': 'lit' })],
  ['hear K1 clicks', loads({ K1: 'clicks' })],
  ['M1 does not turn', loads({ M1: 'stopped' })],
  ['fails H3 when Turn Signal RIGHT', [load('H3', 'off', { when: [['turn signal', 'right']] })]],
  ['works H1 when engine running', [load('H1', 'lit', { when: [['engine', 'running']] })]],
  ['H1 off symptom gone when key on', [load('H1', 'off', { symptom: 'absent', when: [['key', 'on']] })]],
  ['H1 cannot tell when key on', [{ type: 'skipped', test: 'H1 when key on', why: 'cannot tell' }]],
  ['key on, turn signal left', [operate('key', 'on'), operate('turn signal', 'left')]],
  ['turn signal in left', [operate('turn signal', 'left')]],
  ['look X3.1 green', [found({ kind: 'look', at: 'X3.1', value: 'corroded' })]],
])('when %j is typed then every load has the word of its kind', (line, expected) => {
  expect(events(line)).toEqual(expected);
});

describe('when an item is out then its name means its own terminals', () => {
  const value = { value: 0.1, step: 0.1 };
  test.each<[string, string, object]>([
    ['ohms F4 0.1', 'out F4', { kind: 'ohms', red: 'F4.1i', black: 'F4.2i', value }],
    ['beep H1 yes', 'out H1', { kind: 'continuity', red: 'H1.1i', black: 'H1.31i', value: 'beep' }],
    // One filament; but a second point makes the first an ordinary point.
    ['ohms H2.54 0.1', 'out H2', { kind: 'ohms', red: 'H2.54i', black: 'H2.31i', value }],
    ['ohms H2.54 GP1 0.1', 'out H2', { kind: 'ohms', red: 'H2.54', black: 'GP1', value }],
  ])('%s', (line, out, reading) => expect(events(line, [out])).toEqual([found(reading)]));
});

test('when some controls stand so already then only the others are recorded', () => {
  expect(events('key on, gear reverse', ['key on'])).toEqual([operate('gear', 'reverse')]);
});

test('when an undo is undone then the echo says that the event counts again', () => {
  const echo = (line: string, ...after: string[]) => {
    const parsed = parseLine(line, bench, recordLines(after));
    return parsed.kind === 'events' ? parsed.echo : parsed;
  };
  expect(echo('undo 2', 'key on', 'undo')).toEqual(['event 1 counts again']);
  expect(echo('undo 1', 'H1 off')).toEqual([
    'event 1 counts no more: H1 (left lamp): off, everything at rest',
  ]);
});

test.each<[line: string, message: RegExp, mend: RegExp, after?: readonly string[]]>([
  ['fails H2', /H2 has several filaments/, /H2.54, H2.58/],
  ['fails F4', /F4 is a fuse/, /look F4/],
  ['fails H9', /no load "H9"/, /Did you mean H1\?/],
  ['fails H1 when off', /More than one control has the position "off"/, /key off or turn signal off/],
  ['fails H1 when gaer reverse', /no control "gaer"/, /Did you mean gear\?/],
  ['volts W3 11', /wire with two ends/, /SP1 or S2.30/],
  ['volts X3.1h 11.4A', /"11.4A" is in amps, but this reading is in volts/, /amps/],
  ['volts X3.1h X3.1h 0', /Both probes are on X3.1h/, /two different/],
  ['ohms K1 85', /K1 has 4 terminals/, /K1.85i/],
  ['ohms F4 0.1', /F4 is still fitted/, /out F4.*ohms F4.1 F4.2/],
  ['late 2 ohms F4 0.1', /F4 is still fitted/, /out F4/, ['key on', 'out F4']],
  ['drop X3 1', /X3 has 2 pins/, /X3.1, X3.2/],
  ['amps F4 1', /where at F4/, /F4.1, F4.2/],
  ['beep X3.2h body 0.3', /is a number/, /ohms A B 0.3/],
  ['out X3', /X3 is a connector/, /unplug X3/],
  ['unplug X3', /unplugged already/, /plug X3/, ['unplug X3']],
  ['out F4', /out already/, /in F4/, ['out F4']],
  ['jumper S1', /jumper between S1.1 and S1.2 already/, /unjumper/, ['jumper S1']],
  ['undo 1', /undone already/, /undo 2/, ['key on', 'undo 1']],
  ['late 1 note x', /Only findings and actions/, /without late/, ['key on']],
  ['late 1 H1 off', /neither a finding nor an action/, /list/, ['note x']],
  ['late 1 suspects', /no place in time/, /without late/, ['key on']],
  ['repair X3 15 min', /not said what was done/, /repair X3/],
  ['skip volts X3.1h', /why the test was skipped/, /cannot reach/],
])('when %j is typed then it is refused in words that help', (line, message, mend, after = []) => {
  const parsed = parseLine(line, bench, recordLines(after));
  expect(parsed).toMatchObject({
    kind: 'error',
    message: expect.stringMatching(message) as string,
    mend: expect.stringMatching(mend) as string,
  });
});
