/** Probe points, parts, wires, pins and loads in a typed line, with the help a wrong name needs. */
import { nearest } from '../../circuit/nearest.js';
import { terminalsOf, type Circuit } from '../../circuit/circuit.js';
import { type NameList } from '../names.js';
import type { LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { LineProblem } from './problem.js';

/** Words that only say which probe or preposition comes next. */
export const PROBE_NOISE = [
  'red',
  'black',
  'from',
  'to',
  'at',
  'on',
  'between',
  'and',
  'across',
  'is',
  'reads',
  'tip',
  'clip',
];

const SIDES: ReadonlyMap<string, 'h' | 'c'> = new Map([
  ['h', 'h'],
  ['harness', 'h'],
  ['c', 'c'],
  ['component', 'c'],
]);

/** One probe point, taken. */
export function takePoint(cursor: Cursor, { circuit, names }: LineContext): string {
  cursor.skipNoise(PROBE_NOISE);
  const token = cursor.peek();
  if (!token)
    throw new LineProblem(
      cursor.at,
      'A probe point is missing',
      'For example X3.1h, F4.2, GP1, bat- or body.',
    );
  const point = cursor.takeName(names.points);
  if (point !== undefined) return point;
  const pin = names.pins.get(token.lower);
  if (pin !== undefined) {
    const side = SIDES.get(cursor.peek(1)?.lower ?? '');
    if (side !== undefined) {
      cursor.skip(2);
      return pin + side;
    }
    throw new LineProblem(
      token.at,
      `${pin} has two sides`,
      `Type ${pin}h for the harness side or ${pin}c for the component side; across the pin: drop ${pin}.`,
    );
  }
  throw new LineProblem(
    token.at,
    ...noSuchPoint(token.text, circuit, names.points, cursorPart(token.lower, names.parts)),
  );
}

/** True when the coming word is a probe point, or clearly meant as one. */
export function pointAhead(cursor: Cursor, { names }: LineContext): boolean {
  const word = cursor.peek()?.lower;
  if (word === undefined) return false;
  // Numbers first: nobody calls a point 11.4, and a circuit that does must not swallow the reading.
  if (/^[-+−–]?[.,]?\d+([.,]\d*)?$/.test(word)) return false;
  return [names.points, names.pins, names.parts, names.wires].some((list) => list.has(word));
}

/** A part, wire, point or pin, taken. */
export function takeAnything(cursor: Cursor, context: LineContext, what = 'part, wire or point'): string {
  const { names } = context;
  return takeFrom(cursor, what, [names.parts, names.wires, names.points, names.pins]);
}

/** A name out of the lists, taken; the error names the nearest. */
export function takeFrom(cursor: Cursor, what: string, lists: readonly NameList[]): string {
  const token = cursor.peek();
  if (!token) throw new LineProblem(cursor.at, `The ${what} is missing`, examplesOf(lists));
  for (const list of lists) {
    const name = cursor.takeName(list);
    if (name !== undefined) return name;
  }
  const close = nearest(
    token.text,
    lists.flatMap((list) => [...list.values()]),
  );
  throw new LineProblem(
    token.at,
    `This circuit has no ${what} "${token.text}"`,
    close === undefined ? examplesOf(lists) : `Did you mean ${close}?`,
  );
}

/** The two points across a two-terminal part, a connector pin, a wire or one filament, taken; undefined for plain points. */
export function takeAcross(
  cursor: Cursor,
  { circuit, names }: LineContext,
  side: '' | 'i',
): { readonly name: string; readonly ends: readonly [string, string] } | undefined {
  const token = cursor.peek();
  if (!token) return undefined;
  const name = names.parts.get(token.lower) ?? names.wires.get(token.lower) ?? names.pins.get(token.lower);
  if (name === undefined || names.points.has(token.lower)) return undefined;
  const wire = circuit.wires.find((candidate) => candidate.id === name);
  const part = circuit.parts.get(name);
  if (part?.type === 'connector')
    throw new LineProblem(
      token.at,
      `${name} has ${part.pins.length} pins`,
      `Name the pin: ${part.pins.map((pin) => `${name}.${pin}`).join(', ')}.`,
    );
  if (part) {
    const terminals = terminalsOf(part);
    if (terminals.length !== 2)
      throw new LineProblem(
        token.at,
        `${name} has ${terminals.length} terminals`,
        `Name two of them: ${terminals.map((terminal) => `${name}.${terminal}${side}`).join(', ')}.`,
      );
    cursor.skip(1);
    return { name, ends: [`${name}.${terminals[0]}${side}`, `${name}.${terminals[1]}${side}`] };
  }
  cursor.skip(1);
  return wire ? { name, ends: [wire.from, wire.to] } : { name, ends: [`${name}h`, `${name}c`] };
}

/** A load, taken. A lamp with several filaments must be named with the filament. */
export function takeLoad(cursor: Cursor, { circuit, names }: LineContext): string {
  const token = cursor.peek();
  const load = cursor.takeName(names.loads);
  if (load !== undefined) return load;
  if (!token) throw new LineProblem(cursor.at, 'The load is missing', examplesOf([names.loads]));
  const part = circuit.parts.get(names.parts.get(token.lower) ?? '');
  const own = [...names.loads.values()].filter((name) => name.startsWith(`${part?.id}.`));
  if (part && own.length > 0)
    throw new LineProblem(token.at, `${part.id} has several filaments`, `Name the one: ${own.join(', ')}.`);
  if (part)
    throw new LineProblem(
      token.at,
      `${part.id} is a ${part.type}: it does not light, sound or turn`,
      `How it looks: look ${part.id} good. ${examplesOf([names.loads])}`,
    );
  const close = nearest(token.text, names.loads.values());
  throw new LineProblem(
    token.at,
    `This circuit has no load "${token.text}"`,
    close === undefined ? examplesOf([names.loads]) : `Did you mean ${close}?`,
  );
}

function noSuchPoint(
  text: string,
  circuit: Circuit,
  points: NameList,
  partName: string | undefined,
): [string, string] {
  const part = circuit.parts.get(partName ?? '');
  const own = [...new Set(points.values())].filter((point) => point.startsWith(`${partName}.`));
  if (part?.id.toLowerCase() === text.toLowerCase() && own.length > 0)
    return [`${part.id} has more than one place to probe`, `Name the one: ${own.join(', ')}.`];
  const wire = circuit.wires.find((candidate) => candidate.id.toLowerCase() === text.toLowerCase());
  if (wire) return [`${wire.id} is a wire with two ends`, `Name the end: ${wire.from} or ${wire.to}.`];
  if (part && own.length > 0) return [`${part.id} has no point "${text}"`, `It has: ${own.join(', ')}.`];
  const close = nearest(text, new Set(points.values()));
  return [
    `This circuit has no point "${text}"`,
    close === undefined ? 'Points look like X3.1h, F4.2, GP1, bat- or body.' : `Did you mean ${close}?`,
  ];
}

/** The part a mistyped point belongs to: `F4.9` is about F4. */
function cursorPart(lower: string, parts: NameList): string | undefined {
  return parts.get(lower.split('.')[0]!);
}

function examplesOf(lists: readonly NameList[]): string {
  const names = [...new Set(lists.flatMap((list) => [...list.values()]))];
  if (names.length === 0) return 'This circuit has none.';
  return names.length > 12
    ? `For example ${names.slice(0, 5).join(', ')}.`
    : `There is: ${names.join(', ')}.`;
}
