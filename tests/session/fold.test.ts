/** What a list of events amounts to. */
import { describe, expect, test } from 'vitest';
import type { Event, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import type { Case, Finding } from '../../src/session/case.js';
import { circuit, numbered, typed } from './lamps.js';

const fold = (...lines: readonly string[]): Case => foldCase(circuit, typed(...lines));
const findings = (session: Case): readonly Finding[] =>
  session.timeline.flatMap((step) => (step.kind === 'finding' ? [step.finding] : []));
/** `1 did unplug`, `2 found X3.1h` … */
const shortly = (session: Case): readonly string[] =>
  session.timeline.map((step) =>
    step.kind === 'action'
      ? `${step.number} ${step.action.do}`
      : `${step.finding.number} ${'red' in step.finding.reading ? step.finding.reading.red : step.finding.reading.kind}`,
  );

test('when nothing is recorded then everything is at rest and the complaint is there', () => {
  const session = fold();
  expect([...session.now.controls]).toEqual([
    ['key', 'off'],
    ['gear', 'neutral'],
  ]);
  expect(session).toMatchObject({ timeline: [], symptom: 'present', closed: false, concluded: undefined });
});

describe('the set-up of a finding', () => {
  test('when actions went before then it holds what they did', () => {
    const [first, second] = findings(
      fold(
        'key on',
        'volts F7.2 12.1',
        'unplug X3',
        'out F7',
        'jumper S2',
        'engine running',
        'volts F7.1 12.1',
      ),
    );
    expect(first!.setUp).toMatchObject({ engine: 'off', unplugged: new Set(), out: new Set(), jumpers: [] });
    expect(second!.setUp).toMatchObject({
      engine: 'running',
      unplugged: new Set(['X3']),
      out: new Set(['F7']),
      jumpers: [['S2.1', 'S2.2']],
    });
    expect(second!.setUp.controls.get('key')).toBe('on');
  });
  test('when positions are named with it then they hold for it alone', () => {
    const session = fold('volts F7.2 12.1 when key on engine running', 'volts F7.2 0');
    const [first, second] = findings(session);
    expect(first!.setUp.controls.get('key')).toBe('on');
    expect(first!.setUp.engine).toBe('running');
    expect(second!.setUp.controls.get('key')).toBe('off');
    expect(session.now.engine).toBe('off');
  });
});

describe('undo', () => {
  test('when an action is undone then later findings stand without it', () => {
    const session = fold('key on', 'unplug X3', 'volts X3.1h 12.1', 'undo 2');
    expect(shortly(session)).toEqual(['1 operate', '3 X3.1h']);
    expect(findings(session)[0]!.setUp.unplugged).toEqual(new Set());
  });
  test('when the undo is undone then the event counts again, in its place', () => {
    const before = fold('key on', 'unplug X3', 'volts X3.1h 12.1');
    const after = fold('key on', 'unplug X3', 'volts X3.1h 12.1', 'undo 2', 'undo 4');
    expect(after.timeline).toEqual(before.timeline);
    expect(after.now).toEqual(before.now);
  });
  test('when an undo of an undo is undone then the event is gone again', () => {
    const session = fold('key on', 'unplug X3', 'undo 2', 'undo 3', 'undo 4');
    expect(shortly(session)).toEqual(['1 operate']);
  });
  test('when a proof, an assumption or the cause is undone then it is gone', () => {
    const session = fold('prove volts', 'assume F7', 'cause GP2 loose', 'undo 1', 'undo 2', 'undo 3');
    expect(session).toMatchObject({ assumed: [], concluded: undefined });
    expect(session.proofs.size).toBe(0);
  });
});

describe('a late entry', () => {
  test('when it belongs before a touch then it has the set-up and the symptom of that time', () => {
    const session = fold('key on', 'H1 off', 'unplug X3', 'symptom absent', 'late 3 volts X3.1h 12.1');
    expect(shortly(session)).toEqual(['1 operate', '2 load', '5 X3.1h', '3 unplug']);
    const late = findings(session)[1]!;
    expect(late.setUp.unplugged).toEqual(new Set());
    expect(late.symptom).toBe('present');
    expect(session.now.unplugged).toEqual(new Set(['X3']));
  });
  test('when two belong before the same event then they stay in the order typed', () => {
    const session = fold('unplug X3', 'late 1 volts X3.1h 12.1', 'late 1 volts X4.1h 12.1');
    expect(shortly(session)).toEqual(['2 X3.1h', '3 X4.1h', '1 unplug']);
  });
  test('when an action is entered late then what followed stands in its set-up', () => {
    const session = fold('volts X3.1h 12.1', 'late 1 key on');
    expect(findings(session)[0]!.setUp.controls.get('key')).toBe('on');
  });
  test('when the event after it is undone then it keeps its place', () => {
    const session = fold('H1 off', 'unplug X3', 'H2 off', 'late 2 volts X3.1h 12.1', 'undo 2');
    expect(shortly(session)).toEqual(['1 load', '4 X3.1h', '3 load']);
  });
});

describe('the symptom', () => {
  test('when it is said to be absent then it stays so until a finding says otherwise', () => {
    const session = fold('H1 off', 'symptom absent', 'H1 lit', 'H2 off symptom present', 'H2 off');
    expect(findings(session).map((finding) => finding.symptom)).toEqual([
      'present',
      'absent',
      'present',
      'present',
    ]);
    expect(session.symptom).toBe('present');
  });
  test('when that is undone then it is as before', () => {
    expect(fold('symptom absent', 'undo').symptom).toBe('present');
  });
});

describe('a zero, an OL, a dark test lamp', () => {
  const proved = (...lines: readonly string[]): readonly boolean[] =>
    findings(fold(...lines)).map((one) => one.proved);
  test('when its meter was never proved then it is not proof', () => {
    expect(proved('volts X3.1h 0.0')).toEqual([false]);
    expect(proved('ohms X3.2h body OL')).toEqual([false]);
    expect(proved('beep X3.2h body no')).toEqual([false]);
    expect(proved('testlamp X3.1h off')).toEqual([false]);
    expect(proved('amps W3 0.00')).toEqual([false]);
  });
  test('when the same mode was proved, before or after, then it is', () => {
    expect(proved('prove volts', 'volts X3.1h 0.0')).toEqual([true]);
    expect(proved('volts X3.1h 0.0', 'prove volts')).toEqual([true]);
    expect(proved('volts X3.1h 0.0', 'volts bat+ 12.4')).toEqual([true, true]);
    expect(proved('ohms X3.2h body OL', 'beep X4.2h body yes')).toEqual([true, true]);
    expect(proved('testlamp X3.1h off', 'testlamp bat+ lit')).toEqual([true, true]);
  });
  test('when another mode was proved then it is not', () => {
    expect(proved('prove ohms', 'volts X3.1h 0.0')).toEqual([false]);
    expect(proved('prove volts', 'testlamp X3.1h off')).toEqual([false]);
  });
  test('when the proving reading is undone then it is not', () => {
    expect(proved('volts X3.1h 0.0', 'volts bat+ 12.4', 'undo 2')).toEqual([false]);
  });
  test('when the reading is no zero then it needs no proof', () => {
    expect(proved('volts X3.1h 3.2', 'H1 off')).toEqual([true, true]);
  });
});

test('when somebody only said so then the finding says told, and meters say measured', () => {
  expect(findings(fold('told H1 off', 'H1 off', 'volts F7.2 12.1')).map((one) => one.evidence)).toEqual([
    'told',
    'seen',
    'measured',
  ]);
});

test('when the concern comes in pieces then later answers replace and history adds up', () => {
  const { concern } = fold(
    'complaint dark',
    'history rain',
    'complaint no lamps',
    'history tow bar',
    'meter demo',
  );
  expect(concern).toEqual({ complaint: 'no lamps', history: ['rain', 'tow bar'], meter: 'demo' });
});

test('when something is recorded after the close then the session is open again, but not for a note', () => {
  expect(fold('H1 off', 'done').closed).toBe(true);
  expect(fold('H1 off', 'done', 'note a').closed).toBe(true);
  expect(fold('H1 off', 'done', 'H1 lit').closed).toBe(false);
});

test('when the same events are folded twice then the case is the same and the events are untouched', () => {
  const recorded = typed('key on', 'H1 off', 'unplug X3', 'undo', 'late 2 volts X3.1h 12.1');
  const before = JSON.stringify(recorded);
  expect(foldCase(circuit, recorded)).toEqual(foldCase(circuit, recorded));
  expect(JSON.stringify(recorded)).toBe(before);
});

test('when events make no sense together then they fold all the same', () => {
  const odd: readonly Event[] = [
    { type: 'undone', number: 1 },
    { type: 'undone', number: 99 },
    { type: 'did', action: { do: 'plug', connector: 'X3' }, before: 77 },
    { type: 'did', action: { do: 'remove jumper', between: ['a', 'b'] } },
  ];
  const recorded: readonly Recorded[] = numbered(odd);
  expect(foldCase(circuit, recorded).timeline).toHaveLength(2);
});
