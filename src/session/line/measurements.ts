/** Meter and test-lamp lines: `volts X3.1h 11.4/12.4`, `drop GP2 bat- 0.8`, `ohms F4 0.1`, `beep A B yes`, `testlamp X3.1h lit`. */
import { terminalsOf } from '../../circuit/circuit.js';
import type { Reading, Typed, VoltsMode } from '../events.js';
import {
  isOverRange,
  parseContinuity,
  parseMeter,
  parseOhms,
  parseSkipReason,
  parseTestLamp,
} from '../parse-reading.js';
import type { Parsed } from '../parse-number.js';
import type { LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { LineProblem } from './problem.js';
import { PROBE_NOISE, pointAhead, takeAcross, takeFrom, takePoint } from './targets.js';

/** A finished reading, or the reason why there is none. */
export type Measured =
  | { readonly reading: Reading; readonly battery: Typed | undefined }
  | { readonly skipped: NonNullable<ReturnType<typeof parseSkipReason>>; readonly test: string };

/** Black left out = battery negative. */
export function takeVolts(cursor: Cursor, context: LineContext): Measured {
  const mode = takeMode(cursor, context);
  const red = takePoint(cursor, context);
  const black = otherPoint(cursor, context) ?? 'bat-';
  return volts(cursor, red, black, mode);
}

/** Two points, or one name for what lies between: a two-terminal part, a wire, a connector pin. */
export function takeDrop(cursor: Cursor, context: LineContext): Measured {
  const mode = takeMode(cursor, context);
  cursor.skipNoise(PROBE_NOISE);
  const across = takeAcross(cursor, context, '');
  const red = across?.ends[0] ?? takePoint(cursor, context);
  const black = across?.ends[1] ?? takePoint(cursor, context);
  return volts(cursor, red, black, mode);
}

export function takeOhms(cursor: Cursor, context: LineContext): Measured {
  const [red, black] = twoPoints(cursor, context, 'ohms');
  return takeValue(cursor, parseOhms, (value) => ({ kind: 'ohms', red, black, value }));
}

export function takeContinuity(cursor: Cursor, context: LineContext): Measured {
  const [red, black] = twoPoints(cursor, context, 'beep');
  return takeValue(cursor, parseContinuity, (value) => ({ kind: 'continuity', red, black, value }));
}

/** Where the current is read: an ammeter opened in line there, or a clamp around it. */
export function takeAmps(kind: 'amps' | 'clamp'): (cursor: Cursor, context: LineContext) => Measured {
  return (cursor, context) => {
    const at = takeCurrentPlace(cursor, context, kind === 'amps' ? 'the meter is in line' : 'the clamp is');
    return takeValue(
      cursor,
      (text) => parseMeter(text, 'amps'),
      ({ value }) => ({ kind, at, value }),
      ({ battery }) => battery,
    );
  };
}

function takeCurrentPlace(cursor: Cursor, { circuit, names }: LineContext, what: string): string {
  cursor.skipNoise(['in', 'at', 'through', 'line', 'around', 'on']);
  const terminals = new Map(
    [...circuit.parts.values()]
      .flatMap((part) => terminalsOf(part).map((terminal) => `${part.id}.${terminal}`))
      .map((point) => [point.toLowerCase(), point]),
  );
  const part = circuit.parts.get(names.parts.get(cursor.peek()?.lower ?? '') ?? '');
  if (part && !names.wires.has(part.id.toLowerCase()))
    throw new LineProblem(
      cursor.at,
      `It is not said where at ${part.id} ${what}`,
      `Name one: ${[...terminals.values(), ...names.pins.values()].filter((name) => name.startsWith(`${part.id}.`)).join(', ') || 'the wire to it'}.`,
    );
  return takeFrom(cursor, 'wire, terminal or connector pin', [names.wires, names.pins, terminals]);
}

/** The test lamp that hangs in place of a fuse. */
export function takeFuseLamp(cursor: Cursor, context: LineContext): Measured {
  const part = takeFrom(cursor, 'fuse', [context.names.parts]);
  return takeValue(cursor, parseTestLamp, (value) => ({ kind: 'fuse lamp', part, value }));
}

/** `LED` anywhere before the point says which lamp. Clip left out = battery negative. */
export function takeTestLamp(cursor: Cursor, context: LineContext): Measured {
  const led = cursor.peek()?.lower === 'led' && !context.names.points.has('led');
  if (led) cursor.skip(1);
  const red = takePoint(cursor, context);
  const black = otherPoint(cursor, context) ?? 'bat-';
  return takeValue(cursor, parseTestLamp, (value) => ({
    kind: 'test lamp',
    red,
    black,
    value,
    lamp: led ? 'LED' : 'filament',
  }));
}

const MODES: ReadonlyMap<string, VoltsMode> = new Map([
  ...['lowz', 'low-z', 'loz', 'low-impedance'].map((word) => [word, 'low impedance'] as const),
  ...['loaded', 'underload', 'with-lamp'].map((word) => [word, 'loaded'] as const),
]);

/** Before the points: `lowz` = the meter in its low-impedance mode, `loaded` = with a test lamp across the same points. */
function takeMode(cursor: Cursor, { names }: LineContext): VoltsMode | undefined {
  const word = cursor.peek()?.lower;
  if (word === undefined || names.points.has(word) || names.parts.has(word)) return undefined;
  const mode = MODES.get(word);
  if (mode !== undefined) cursor.skip(1);
  return mode;
}

function volts(cursor: Cursor, red: string, black: string, mode: VoltsMode | undefined): Measured {
  if (red === black)
    throw new LineProblem(cursor.at, `Both probes are on ${red}`, 'Name two different points.');
  return takeValue(
    cursor,
    (text) => parseMeter(text, 'volts'),
    ({ value }) => ({
      kind: 'volts',
      red,
      black,
      value,
      ...(mode === undefined ? {} : { mode }),
    }),
    ({ battery }) => battery,
  );
}

/** For ohms and the buzzer: two points, or one item measured on its own terminals once it is out. */
function twoPoints(cursor: Cursor, context: LineContext, verb: string): readonly [string, string] {
  cursor.skipNoise(PROBE_NOISE);
  const token = cursor.peek();
  const item = ownTerminals(cursor, context);
  if (!item) {
    const red = takePoint(cursor, context);
    const black = takePoint(cursor, context);
    if (red === black)
      throw new LineProblem(token!.at, `Both probes are on ${red}`, 'Name two different points.');
    return [red, black];
  }
  const part = item.name.split('.')[0]!;
  if (context.circuit.parts.has(item.name) && !context.standing.out.has(part))
    throw new LineProblem(
      token!.at,
      `${part} is still fitted, and the rest of the circuit would be measured with it`,
      `First: out ${part}. To measure in place: ${verb} ${item.ends[0].slice(0, -1)} ${item.ends[1].slice(0, -1)} ...`,
    );
  return item.ends;
}

/** `F4` and `H1.54` (one filament, when no second point follows) stand for the item's own terminals. */
function ownTerminals(
  cursor: Cursor,
  context: LineContext,
): { readonly name: string; readonly ends: readonly [string, string] } | undefined {
  const across = takeAcross(cursor, context, 'i');
  if (across) return across;
  const load = context.names.loads.get(cursor.peek()?.lower ?? '');
  if (load === undefined || !load.includes('.')) return undefined;
  const part = load.split('.')[0]!;
  if (!context.standing.out.has(part)) return undefined;
  cursor.skip(1);
  if (pointAhead(cursor, context)) {
    cursor.skip(-1);
    return undefined;
  }
  return { name: load, ends: [`${load}i`, `${part}.31i`] };
}

function otherPoint(cursor: Cursor, context: LineContext): string | undefined {
  cursor.skipNoise(PROBE_NOISE);
  const word = cursor.peek()?.lower;
  if (word === undefined) return undefined;
  if (pointAhead(cursor, context)) return takePoint(cursor, context);
  // Not a number and no word a reading starts with: a mistyped point, better said so than "not a reading".
  if (!/^[-+−–.,\d]/.test(word) && !VALUE_WORDS.includes(word) && !isOverRange(word))
    return takePoint(cursor, context);
  return undefined;
}

const VALUE_WORDS = [
  ...[
    'lit',
    'dim',
    'off',
    'dark',
    'bright',
    'faint',
    'weak',
    'glows',
    'dull',
    'out',
    'dead',
    'nothing',
    'lights',
    'flashes',
    'flashing',
    'blinks',
  ],
  ...['yes', 'no', 'beep', 'beeps', 'cannot', "can't", 'cant', 'can', 'unsure', 'not', "don't", 'dont', '?'],
];

/** What was read, to the end of the line; or why nothing was. */
export function takeValue<T>(
  cursor: Cursor,
  parse: (text: string) => Parsed<T>,
  reading: (value: T) => Reading,
  battery: (value: T) => Typed | undefined = () => undefined,
): Measured {
  cursor.skipNoise(['is', 'reads', 'shows']);
  const at = cursor.at;
  const test = cursor.textBefore(at);
  const text = cursor.takeWords();
  const skipped = parseSkipReason(text);
  if (skipped !== undefined) return { skipped, test };
  const value = parse(text);
  if (!value.ok) throw new LineProblem(at, value.message, value.mend);
  return { reading: reading(value.value), battery: battery(value.value) };
}
