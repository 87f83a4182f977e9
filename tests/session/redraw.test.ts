/** A drawing corrected in mid-session: the findings stay, and everything recorded must still have its name in it. */
import { describe, expect, test } from 'vitest';
import { decide } from '../../src/session/decide.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { drawingOf, foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';
import { circuitOf, kinds, KINDS_YAML, recordKinds } from './kinds-circuit.js';

const opened: Event = {
  type: 'opened',
  format: 1,
  program: 'p',
  circuit: { id: 'kinds', hash: 'old', file: 'kinds.yaml' },
};
const redrawn: Event = {
  type: 'redrawn',
  circuit: { id: 'kinds', hash: 'new', file: 'kinds.yaml' },
  words: 'H2 hangs on F1',
};
const session = (...lines: readonly string[]): readonly Recorded[] =>
  recordKinds(lines, [{ number: 1, at: '', event: opened }]);
const then = (recorded: readonly Recorded[], ...events: readonly Event[]): readonly Recorded[] =>
  events.reduce((all, event) => [...all, { number: all.length + 1, at: '', event }], recorded);
const corrected = circuitOf(KINDS_YAML.replace('{from: F2.2, to: H2.1', '{from: F2.2, to: H2.1, colour: RD'));
/** H3 has another name, and F2 is a breaker. */
const poorer = circuitOf(
  KINDS_YAML.replace(
    '{type: fuse, name: right fuse, rating: 10 A',
    '{type: breaker, rating: 10 A',
  ).replaceAll('H3', 'H7'),
);

test('when it was redrawn then the case stands on the new drawing and keeps its findings', () => {
  const recorded = then(session('key on', 'H1 off'), redrawn);
  const folded = foldCase(corrected, recorded);
  expect(folded.circuit).toEqual(redrawn.circuit);
  expect(drawingOf(recorded)).toEqual(redrawn.circuit);
  expect(folded.timeline).toEqual(foldCase(kinds, session('key on', 'H1 off')).timeline);
  expect(drawingOf(session())).toEqual(opened.circuit);
  expect(drawingOf([])).toBeUndefined();
});

describe('what the corrected drawing must still have', () => {
  test('when everything is there then it may be recorded', () => {
    expect(decide(corrected, session('H3 off', 'lamp F2'), [redrawn])).toEqual({
      ok: true,
      events: [redrawn],
    });
  });
  test('when a name is gone then its event is told', () => {
    expect(decide(poorer, session('key on', 'H3 off'), [redrawn])).toEqual({
      ok: false,
      message: 'Event 3 does not fit the corrected drawing: This circuit has no load "H3"',
      mend: 'Keep the name and the part in the circuit file, or first: undo 3',
    });
  });
  test('when that event was undone before then it does not count, and cannot come back', () => {
    const recorded = session('H3 off', 'undo 2');
    expect(decide(poorer, recorded, [redrawn])).toMatchObject({ ok: true });
    expect(decide(poorer, then(recorded, redrawn), [{ type: 'undone', number: 3 }])).toMatchObject({
      ok: false,
      message: expect.stringContaining('Event 2 would count again') as string,
    });
  });
  test('when two swapped parts are no longer alike then the swap is told', () => {
    expect(decide(poorer, session('swap F1 F2'), [redrawn])).toMatchObject({
      ok: false,
      message: expect.stringContaining('F1 is a fuse, F2 a breaker') as string,
    });
  });
});

test('when the correction would be undone then it is refused', () => {
  expect(decide(corrected, then(session(), redrawn), [{ type: 'undone', number: 2 }])).toMatchObject({
    ok: false,
    message: expect.stringContaining('cannot be undone') as string,
    mend: expect.stringContaining('redraw') as string,
  });
});

test.each<[string, string | undefined]>([
  ['redraw', undefined],
  ['redraw W4 goes to SP2, not SP1', 'W4 goes to SP2, not SP1'],
])('when %j is typed then the shell is asked to read the file anew', (line, about) => {
  expect(parseLine(line, kinds)).toEqual({ kind: 'query', query: 'redraw', about });
});
