/** What may not follow what. */
import { describe, expect, test } from 'vitest';
import { decide, nextNumber, standingSetUp } from '../../src/session/decide.js';
import type { Event } from '../../src/session/events.js';
import { circuit, typed } from './lamps.js';

const opened: Event = { type: 'opened', format: 1, program: 'p', circuit: { id: 'c', hash: 'h', file: 'f' } };
const unplug: Event = { type: 'did', action: { do: 'unplug', connector: 'X3' } };
const off: Event = { type: 'found', reading: { kind: 'load', load: 'H1', value: 'off' } };

describe('when it cannot follow then it is refused with the mend:', () => {
  test.each<[string, readonly string[], Event, string, string]>([
    ['a second unplugging', ['unplug X3'], unplug, 'X3 is unplugged already', 'To connect it again: plug X3'],
    [
      'plugging what is plugged',
      [],
      { type: 'did', action: { do: 'plug', connector: 'X3' } },
      'X3 is plugged already',
      'To part it: unplug X3',
    ],
    [
      'taking out what is out',
      ['out F7'],
      { type: 'did', action: { do: 'take out', part: 'F7' } },
      'F7 is out already',
      'To put it back: in F7. A new one: new F7',
    ],
    [
      'refitting what is in',
      [],
      { type: 'did', action: { do: 'refit', part: 'F7' } },
      'F7 is not out, so it cannot be refitted',
      'To take it out: out F7',
    ],
    [
      'the same jumper the other way round',
      ['jumper S2.1 S2.2'],
      { type: 'did', action: { do: 'jumper', between: ['S2.2', 'S2.1'] } },
      'There is a jumper between S2.2 and S2.1 already',
      'To take it off: unjumper S2.2 S2.1',
    ],
    [
      'taking off another jumper',
      ['jumper S2'],
      { type: 'did', action: { do: 'remove jumper', between: ['F7.1', 'F7.2'] } },
      'There is no jumper between F7.1 and F7.2',
      'Fitted: S2.1 to S2.2.',
    ],
    ['opening twice', ['H1 off'], opened, 'The session is open already', 'Record the next step.'],
    [
      'undoing what is not there',
      ['H1 off'],
      { type: 'undone', number: 7 },
      'There is no event 7',
      'Events are numbered 1 to 1. To see them: list',
    ],
    [
      'undoing twice',
      ['H1 off', 'undo 1'],
      { type: 'undone', number: 1 },
      'Event 1 (H1 (left reversing lamp): off, everything at rest) is undone already',
      'To bring it back: undo 2',
    ],
    [
      'before what is not there',
      [],
      { ...off, before: 3 },
      'There is no event 3',
      'Nothing is recorded yet.',
    ],
    [
      'before a note',
      ['note a'],
      { ...off, before: 1 },
      'Event 1 is neither a finding nor an action, so nothing can come before it in time',
      'Give the number of the action or finding that came next. To see them: list',
    ],
    [
      'late, where it was unplugged already',
      ['unplug X3', 'H1 off'],
      { ...unplug, before: 2 },
      'X3 is unplugged already',
      'To connect it again: plug X3',
    ],
    [
      'a part of another circuit',
      [],
      { type: 'assumed', part: 'F77' },
      'This circuit has no part "F77"',
      'Did you mean F7?',
    ],
    [
      'a probe where none goes',
      [],
      {
        type: 'found',
        reading: { kind: 'volts', red: 'X3.1', black: 'bat-', value: { value: 1, step: 1 } },
      },
      'This circuit has no probe point "X3.1"',
      'Did you mean X3.1h?',
    ],
    [
      'an engine that flies',
      [],
      { ...off, when: [['engine', 'flying']] },
      'The engine is off or running, not "flying"',
      'Write off or running.',
    ],
    [
      'a gear there is not',
      [],
      { ...off, when: [['gear', 'third']] },
      'gear has no position "third"',
      'Its positions: neutral, reverse.',
    ],
  ])('%s', (_, lines, event, message, mend) => {
    expect(decide(circuit, typed(...lines), [event])).toEqual({ ok: false, message, mend });
  });
});

test('when the opening would be undone then it is refused', () => {
  const recorded = [{ number: 1, at: '', event: opened }];
  expect(decide(circuit, recorded, [{ type: 'undone', number: 1 }])).toMatchObject({
    ok: false,
    message: 'The opening of the session cannot be undone',
  });
});

test('when one of several cannot follow then none of them does', () => {
  expect(decide(circuit, [], [off, unplug, unplug])).toMatchObject({
    ok: false,
    message: 'X3 is unplugged already',
  });
  expect(decide(circuit, [], [off, unplug])).toEqual({ ok: true, events: [off, unplug] });
});

test('when the unplugging was undone then it may be done again', () => {
  expect(decide(circuit, typed('unplug X3', 'undo'), [unplug])).toMatchObject({ ok: true });
});

test('when events are recorded then the next number follows the last', () => {
  expect(nextNumber([])).toBe(1);
  expect(nextNumber(typed('key on', 'H1 off', 'undo'))).toBe(4);
});

test('when the set-up of an earlier event is asked for then later actions are not in it', () => {
  const recorded = typed('key on', 'H1 off', 'gear reverse', 'late 2 unplug X3');
  expect([...standingSetUp(circuit, recorded, 2).controls.values()]).toEqual(['on', 'neutral']);
  expect(standingSetUp(circuit, recorded, 2).unplugged).toEqual(new Set(['X3']));
});
