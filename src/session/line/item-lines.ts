/** Lines about the items of parts and about waiting: swaps, test lamps in place of fuses, resets. */
import { did, nothingMore, several, type LineParser } from './action-lines.js';
import type { Draft, LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { LineProblem } from './problem.js';
import { takeFrom } from './targets.js';

/** `swap H1 H2`: the two items change places. */
export function swapLine(cursor: Cursor, context: LineContext): Draft {
  const first = takeFrom(cursor, 'part', [context.names.parts]);
  cursor.skipNoise(['with', 'and', 'for', 'to']);
  const second = takeFrom(cursor, 'part', [context.names.parts]);
  nothingMore(cursor);
  return did([{ do: 'swap', parts: [first, second] }]);
}

/** `lamp F4`, `unlamp F4`, `reset F9`. */
export function partLine(what: 'lamp in place' | 'remove lamp' | 'reset'): LineParser {
  return (cursor, context) => {
    cursor.skipNoise(['in', 'place', 'of', 'at']);
    return did(several(cursor, () => ({ do: what, part: takeFrom(cursor, 'part', [context.names.parts]) })));
  };
}

/** `unlamp` for every test lamp that hangs in place of a fuse, or `unlamp F4`. */
export function unlampLine(cursor: Cursor, context: LineContext): Draft {
  if (!cursor.done) return partLine('remove lamp')(cursor, context);
  const lamps = [...context.standing.lamps];
  if (lamps.length === 0)
    throw new LineProblem(
      cursor.at,
      'No test lamp hangs in place of a fuse',
      'To hang one there type lamp and the fuse, for example lamp F4.',
    );
  return did(lamps.map((part) => ({ do: 'remove lamp', part })));
}

/** `wait 30`, `wait 1 h`: everything off and left alone. */
export function waitLine(cursor: Cursor): Draft {
  cursor.skipNoise(['for']);
  const at = cursor.at;
  const words = cursor.takeWords().toLowerCase();
  const found = /^(\d{1,5}(?:[.,]\d{1,3})?)\s*(h|hours?|m|min|minutes?)?$/.exec(words);
  if (!found)
    throw new LineProblem(
      at,
      words === '' ? 'It is not said how long' : `"${words}" is not a time`,
      'Type minutes, for example wait 30; or wait 1 h.',
    );
  const amount = Number(found[1]!.replace(',', '.'));
  return did([{ do: 'wait', minutes: found[2]?.startsWith('h') ? amount * 60 : amount }]);
}
