/** Lines that record what was done: controls, plugs, items, jumpers, cleaning, repairs. */
import type { Action, Event } from '../events.js';
import { NO_ITEM } from '../like-for-like.js';
import { ENGINE } from '../standing.js';
import type { Draft, LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { takePositions } from './positions.js';
import { LineProblem } from './problem.js';
import { takeAcross, takeAnything, takeFrom, takePoint } from './targets.js';

export type LineParser = (cursor: Cursor, context: LineContext) => Draft;

/** `gear reverse`, `key on, gear reverse`, `engine running`. What stands so already is left out. */
export function operateLine(cursor: Cursor, context: LineContext): Draft {
  const at = cursor.at;
  const positions = takePositions(cursor, context, false);
  const changes = positions.filter(([control, position]) =>
    isEngine(control, context)
      ? context.standing.engine !== position
      : context.standing.controls.get(control) !== position,
  );
  if (changes.length === 0)
    throw new LineProblem(
      at,
      `${positions.map(([control, position]) => `${control} is ${position}`).join(' and ')} already`,
      'Nothing to record.',
    );
  return did(changes.map(([control, position]) => toAction(control, position, context)));
}

/** `rest`: every control back to its first position, engine off. */
export function restLine(cursor: Cursor, context: LineContext): Draft {
  nothingMore(cursor);
  const { circuit, standing } = context;
  const actions = [...circuit.controls.values()]
    .filter((control) => standing.controls.get(control.id) !== control.positions[0])
    .map((control) => toAction(control.id, control.positions[0]!, context));
  if (standing.engine === 'running') actions.push({ do: 'engine', state: 'off' });
  if (actions.length === 0)
    throw new LineProblem(0, 'Every control is at rest already', 'Nothing to record.');
  return did(actions);
}

/** `unplug X3 X4`, `plug X3`. */
export function connectorLine(what: 'unplug' | 'plug'): LineParser {
  return (cursor, context) => {
    const { names } = context;
    return did(
      several(cursor, () => ({ do: what, connector: takeFrom(cursor, 'connector', [names.connectors]) })),
    );
  };
}

/** `out F4`, `in F4`, `new F4`, `knowngood H1`. */
export function itemLine(what: 'take out' | 'refit' | 'fit new' | 'fit known-good'): LineParser {
  return (cursor, context) => {
    return did(
      several(cursor, () => {
        const at = cursor.at;
        const part = takeFrom(cursor, 'part', [context.names.parts]);
        const { type } = context.circuit.parts.get(part)!;
        if (NO_ITEM.has(type))
          throw new LineProblem(
            at,
            `${part} is a ${type}: there is no item to take out of it or to put in`,
            type === 'connector'
              ? `Type unplug ${part} or plug ${part}.`
              : `For work on it: clean, tighten or repair ${part}.`,
          );
        return { do: what, part };
      }),
    );
  };
}

/** `jumper S1.1 S1.2`, or `jumper S1` across its two terminals. */
export function jumperLine(cursor: Cursor, context: LineContext): Draft {
  const between = takeEnds(cursor, context);
  nothingMore(cursor);
  return did([{ do: 'jumper', between }]);
}

/** `unjumper A B`, or `unjumper` for every one that is fitted. */
export function unjumperLine(cursor: Cursor, context: LineContext): Draft {
  const { jumpers } = context.standing;
  if (!cursor.done) {
    const between = takeEnds(cursor, context);
    nothingMore(cursor);
    return did([{ do: 'remove jumper', between }]);
  }
  if (jumpers.length === 0) throw new LineProblem(cursor.at, 'No jumper is fitted', 'To fit one: jumper A B');
  return did(jumpers.map((between) => ({ do: 'remove jumper', between })));
}

/** `clean GP2`, `wiggle W3`. */
export function handsLine(what: 'clean' | 'tighten' | 'reseat' | 'wiggle'): LineParser {
  return (cursor, context) => did(several(cursor, () => ({ do: what, at: takeAnything(cursor, context) })));
}

/** `repair X3 cleaned contacts 15 min 5 price`. */
export function repairLine(cursor: Cursor, context: LineContext): Draft {
  const at = takeAnything(cursor, context);
  const wordsAt = cursor.at;
  let how = cursor.takeRaw();
  const amount = (pattern: RegExp): number | undefined => {
    const found = pattern.exec(how);
    if (!found) return undefined;
    // A space where the amount stood, or the words on both sides of it would run together.
    how = `${how.slice(0, found.index)} ${how.slice(found.index + found[0].length)}`.trim();
    return Number((found[1] ?? found[2])!.replace(',', '.'));
  };
  const minutes = amount(/[[(,;]?\s*\b(\d+(?:[.,]\d+)?)\s*min(?:ute)?s?\b\s*[\])]?/i);
  const price = amount(
    /[[(,;]?\s*\b(?:(\d+(?:[.,]\d+)?)\s*price|(?:price|cost)\s*(\d+(?:[.,]\d+)?))\b\s*[\])]?/i,
  );
  how = how.replace(/^[\s,;:]+|[\s,;:]+$/g, '').replace(/\s+/g, ' ');
  if (how === '')
    throw new LineProblem(
      wordsAt,
      'It is not said what was done',
      `For example: repair ${at} cleaned contacts 15 min`,
    );
  return did([
    {
      do: 'repair',
      at,
      how,
      ...(minutes === undefined ? {} : { minutes }),
      ...(price === undefined ? {} : { price }),
    },
  ]);
}

export function nothingMore(cursor: Cursor): void {
  if (!cursor.done)
    throw new LineProblem(
      cursor.at,
      `"${cursor.peek()!.text}" is one word too many`,
      'Leave it out, or see help.',
    );
}

function toAction(control: string, position: string, context: LineContext): Action {
  return isEngine(control, context)
    ? { do: 'engine', state: position === 'running' ? 'running' : 'off' }
    : { do: 'operate', control, position };
}

function isEngine(control: string, { circuit }: LineContext): boolean {
  return control === ENGINE && !circuit.controls.has(ENGINE);
}

function takeEnds(cursor: Cursor, context: LineContext): readonly [string, string] {
  cursor.skipNoise(['from', 'between', 'across', 'over']);
  const across = takeAcross(cursor, context, '');
  if (across) return across.ends;
  const at = cursor.at;
  const first = takePoint(cursor, context);
  const second = takePoint(cursor, context);
  if (first === second)
    throw new LineProblem(at, `Both ends of the jumper are on ${first}`, 'Name two different points.');
  return [first, second];
}

/** One action a name, to the end of the line. */
export function several(cursor: Cursor, take: () => Action): readonly Action[] {
  const actions: Action[] = [];
  do {
    actions.push(take());
    cursor.skipNoise(['and']);
  } while (!cursor.done);
  return actions;
}

export function did(actions: readonly Action[]): Draft {
  return { kind: 'events', events: actions.map((action): Event => ({ type: 'did', action })) };
}
