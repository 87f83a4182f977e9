/** What may end any finding: `when CONTROL POSITION …`, `symptom present|absent`. */
import type { LineContext } from './context.js';
import { Cursor } from './cursor.js';
import { takePositions, type Position } from './positions.js';
import { LineProblem } from './problem.js';

export interface Endings {
  readonly when?: readonly Position[];
  readonly symptom?: 'present' | 'absent';
}

/** Words for the complaint being there or not. */
const SYMPTOM: ReadonlyMap<string, 'present' | 'absent'> = new Map([
  ['present', 'present'],
  ['there', 'present'],
  ['yes', 'present'],
  ['absent', 'absent'],
  ['gone', 'absent'],
  ['no', 'absent'],
]);

/** The finding proper, and its endings. */
export function splitEndings(cursor: Cursor, context: LineContext): { head: Cursor; endings: Endings } {
  const { tokens } = cursor;
  const starts = tokens.flatMap((token, i) =>
    token.lower === 'when' || (token.lower === 'symptom' && i > 0) ? [i] : [],
  );
  if (starts.length === 0) return { head: cursor, endings: {} };
  const cut = (from: number, to: number): Cursor =>
    new Cursor(cursor.line, tokens.slice(from, to), tokens[to]?.at ?? cursor.end, cursor.start);
  let endings: Endings = {};
  starts.forEach((start, i) => {
    const part = cut(start + 1, starts[i + 1] ?? tokens.length);
    endings =
      tokens[start]!.lower === 'when'
        ? { ...endings, when: [...(endings.when ?? []), ...takePositions(part, context, true)] }
        : { ...endings, symptom: takeSymptom(part) };
  });
  return { head: cut(0, starts[0]!), endings };
}

/** `present` or `absent`, the last word of its part of the line. */
export function takeSymptom(cursor: Cursor): 'present' | 'absent' {
  cursor.skipNoise(['is', 'was']);
  const token = cursor.take();
  const symptom = SYMPTOM.get(token?.lower ?? '');
  const mend = 'Type symptom present or symptom absent.';
  if (symptom === undefined)
    throw new LineProblem(
      token?.at ?? cursor.at,
      token
        ? `The complaint is present or absent, not "${token.text}"`
        : 'It is not said whether the complaint was there',
      mend,
    );
  if (!cursor.done) throw new LineProblem(cursor.at, `"${cursor.peek()!.text}" is one word too many`, mend);
  return symptom;
}
