/** Every kind of event that can be typed comes back whole from a journal, and may be written by hand. */
import { describe, expect, test } from 'vitest';
import { isEvent } from '../../src/files/event-check.js';
import { eventFrom } from '../../src/files/event-object.js';
import type { Event } from '../../src/session/events.js';
import { recordKinds } from '../session/kinds-circuit.js';

const LINES = [
  ...['swap H1 H2', 'swap H1 H2', 'knowngood H1', 'in H1', 'lamp F1', 'fuselamp F1 lit', 'unlamp', 'in F1'],
  ...[
    'reset F9',
    'wait 30',
    'clamp W3 1.2/12.4',
    'scan A1.2 pressed',
    'scan A1.3 4.9',
    'scan A1.2 no answer',
  ],
  ...['volts lowz F1.2 3.2', 'volts F1.2 3.2', 'H1 flashes fast', 'R1 lukewarm', 'A9 dead', 'prove clamp'],
  ...['prove scan', 'ohms F1.1 F1.2 OL', 'amps W3 0.5', 'look H1 good'],
];

describe('what was typed, through a journal and back:', () => {
  test.each(recordKinds(LINES).map(({ event }) => [JSON.stringify(event), event] as const))(
    '%s',
    (text, event) => {
      const read = JSON.parse(text) as unknown;
      expect(isEvent(read)).toBe(true);
      expect(eventFrom(read as Record<string, unknown>)).toEqual({ ok: true, event });
    },
  );
});

test('when the drawing was corrected then the event comes back whole', () => {
  const event: Event = { type: 'redrawn', circuit: { id: 'a', hash: 'b', file: 'c' }, words: '' };
  expect(isEvent(JSON.parse(JSON.stringify(event)))).toBe(true);
});

test.each<[string, unknown]>([
  ['a swap of one', { type: 'did', action: { do: 'swap', parts: ['H1'] } }],
  ['a lamp in place of nothing', { type: 'did', action: { do: 'lamp in place' } }],
  ['a wait without minutes', { type: 'did', action: { do: 'wait' } }],
  ['a clamp reading OL', { type: 'found', reading: { kind: 'clamp', at: 'W3', value: 'OL' } }],
  [
    'a meter mode there is not',
    {
      type: 'found',
      reading: { kind: 'volts', red: 'a', black: 'b', value: { value: 1, step: 1 }, mode: 'high' },
    },
  ],
  ['a sight there is not', { type: 'found', reading: { kind: 'load', load: 'H1', value: 'glitters' } }],
  ['a correction without words', { type: 'redrawn', circuit: { id: 'a', hash: 'b', file: 'c' } }],
])('when a journal holds %s then it is no event', (_, value) => expect(isEvent(value)).toBe(false));

test('when a reading is written by hand then its digits count', () => {
  expect(eventFrom({ type: 'found', reading: { kind: 'clamp', at: 'W3', value: '450mA' } })).toMatchObject({
    ok: true,
    event: { reading: { value: { value: 0.45, step: 0.001 } } },
  });
  expect(eventFrom({ type: 'did', action: { do: 'wait', minutes: '30' } })).toMatchObject({
    event: { action: { minutes: 30 } },
  });
});
