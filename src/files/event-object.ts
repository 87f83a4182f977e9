/** An event written in YAML, where every value is text, to the event it stands for. */
import type { Event, Reading, Typed } from '../session/events.js';
import { parseNumber, type Parsed, type Quantity } from '../session/parse-number.js';
import { parseOhms } from '../session/parse-reading.js';

export type EventObject =
  | { readonly ok: true; readonly event: Event }
  /** `at`: JSON Pointer inside the event. */
  | { readonly ok: false; readonly at: string; readonly message: string; readonly mend: string };

type Group = Readonly<Record<string, unknown>>;

/** `value` has passed EVENT_SHAPE. */
export function eventFrom(value: Group): EventObject {
  let problem: Extract<EventObject, { ok: false }> | undefined;
  const take = <T>(parsed: Parsed<T>, at: string): T | undefined => {
    if (parsed.ok) return parsed.value;
    problem ??= { ok: false, at, message: parsed.message, mend: parsed.mend };
    return undefined;
  };
  const event: Record<string, unknown> = { ...value };
  for (const key of ['before', 'number', 'format', 'attempt'])
    if (key in event) event[key] = Number(event[key]);
  if (value['type'] === 'found') {
    event['reading'] = readingFrom(value['reading'] as Group, take);
    if ('battery' in value) event['battery'] = take(typedFrom(value['battery'], 'volts'), '/battery');
  }
  if (value['type'] === 'attempted') event['reading'] = readingFrom(value['reading'] as Group, take);
  if (value['drawn'] !== undefined) event['drawn'] = numbersOf(value['drawn'] as Group);
  if (value['type'] === 'did') event['action'] = actionFrom(value['action'] as Group);
  if (value['type'] === 'concern') event['concern'] = { ...(value['concern'] as Group) };
  if (value['type'] === 'opened' || value['type'] === 'redrawn')
    event['circuit'] = { ...(value['circuit'] as Group) };
  return problem ?? { ok: true, event: event as unknown as Event };
}

function readingFrom(reading: Group, take: <T>(parsed: Parsed<T>, at: string) => T | undefined): Reading {
  const { kind, value } = reading;
  const at = '/reading/value';
  return {
    ...reading,
    value: exactValue(kind as Reading['kind'], value, (parsed) => take(parsed, at)),
  } as Reading;
}

function exactValue(
  kind: Reading['kind'],
  value: unknown,
  take: <T>(parsed: Parsed<T>) => T | undefined,
): unknown {
  switch (kind) {
    case 'volts':
    case 'amps':
      return take(typedFrom(value, kind));
    case 'clamp':
      return take(typedFrom(value, 'amps'));
    case 'ohms':
      return take<Typed | 'OL'>(
        typeof value === 'object' ? typedFrom(value, kind) : parseOhms(String(value)),
      );
    case 'scan':
      // A word of the circuit file may look like a number, so volts are told apart by their step.
      return typeof value === 'object' ? take(typedFrom(value, 'volts')) : value;
    default:
      return value;
  }
}

function numbersOf(group: Group): unknown {
  return Object.fromEntries(Object.entries(group).map(([key, value]) => [key, Number(value)]));
}

function actionFrom(action: Group): unknown {
  const numbers = ['minutes', 'price'].flatMap((key) =>
    key in action ? [[key, Number(String(action[key]).replace(',', '.'))] as const] : [],
  );
  return { ...action, ...Object.fromEntries(numbers) };
}

function typedFrom(written: unknown, quantity: Quantity): Parsed<Typed> {
  if (typeof written !== 'object' || written === null) return parseNumber(String(written), quantity);
  const value = Number((written as Group)['value']);
  const step = Number((written as Group)['step']);
  return Number.isFinite(value) && Number.isFinite(step) && step > 0
    ? { ok: true, value: { value, step } }
    : {
        ok: false,
        message: 'Value and step must be plain numbers, the step above 0',
        mend: 'Write the reading as the meter showed it, for example 11.4.',
      };
}
