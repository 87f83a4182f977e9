/**
 * Whether a value is an event this program knows. A checksum only says that a line is as it was written, not by whom:
 * the fold takes whatever it is given for an event, so a made-up line must not get that far.
 */
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { EVENT_SHAPE } from '../session/event-schema.js';
import type { Event } from '../session/events.js';
import { eventFrom } from './event-object.js';

let compiled: ValidateFunction | undefined;

export function isEvent(value: unknown): value is Event {
  compiled ??= new Ajv2020({
    ownProperties: true,
    allowUnionTypes: true,
    strictRequired: false,
    messages: false,
    // Every start of the program pays for this; the schema itself is checked by a test.
    validateSchema: false,
    code: { optimize: false },
  }).compile(EVENT_SHAPE);
  if (!compiled(value)) return false;
  // The schema also lets numbers pass as text, as hand-written sessions have them; a journal never does.
  const read = eventFrom(value as Readonly<Record<string, unknown>>);
  return read.ok && JSON.stringify(read.event) === JSON.stringify(value);
}
