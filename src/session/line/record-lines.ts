/** Lines about the session itself: notes, what was skipped or assumed, proof of a meter, undo, the cause. */
import { lastUndoable } from '../decide.js';
import type { Concern, Event, MeterMode } from '../events.js';
import { parseSkipReason } from '../parse-reading.js';
import { nothingMore } from './action-lines.js';
import type { Draft, LineContext, Query } from './context.js';
import type { Cursor } from './cursor.js';
import { takeSymptom } from './endings.js';
import { LineProblem } from './problem.js';
import { takeAnything } from './targets.js';

type LineParser = (cursor: Cursor, context: LineContext) => Draft;

export function noteLine(cursor: Cursor): Draft {
  return one({
    type: 'noted',
    text: text(cursor, 'The note is empty', 'For example: note tow bar fitted last week'),
  });
}

/** `complaint …`, `vehicle …`, `history …` and the other answers for the head of the report. */
export function concernLine(field: keyof Concern): LineParser {
  return (cursor) => {
    const words = text(cursor, `Nothing is said about the ${field}`, `Type ${field} and the answer.`);
    return one({ type: 'concern', concern: field === 'history' ? { history: [words] } : { [field]: words } });
  };
}

/** `skip volts X3.1h bat-: cannot reach`. */
export function skipLine(cursor: Cursor): Draft {
  const at = cursor.at;
  const words = text(
    cursor,
    'It is not said which test was skipped',
    'For example: skip volts X3.1h: cannot reach',
  );
  const found =
    /^(.*?)[\s:,(]+(can ?not tell|can ?not reach|can't tell|can't reach|no access|no tools?|no meter|not sure)\)?$/i.exec(
      words,
    );
  const why = found ? parseSkipReason(found[2]!) : undefined;
  if (!found || why === undefined || found[1]!.trim() === '')
    throw new LineProblem(
      at,
      'It is not said why the test was skipped',
      'End with : cannot tell, : cannot reach or : no tool.',
    );
  return one({ type: 'skipped', test: found[1]!.trim(), why });
}

export function assumeLine(cursor: Cursor, context: LineContext): Draft {
  const parts: string[] = [];
  do {
    parts.push(takeAnything(cursor, context));
    cursor.skipNoise(['and', 'is', 'good']);
  } while (!cursor.done);
  return { kind: 'events', events: parts.map((part): Event => ({ type: 'assumed', part })) };
}

const MODES: ReadonlyMap<string, MeterMode> = new Map([
  ['volts', 'volts'],
  ['voltmeter', 'volts'],
  ['ohms', 'ohms'],
  ['ohmmeter', 'ohms'],
  ['beep', 'ohms'],
  ['continuity', 'ohms'],
  ['test lamp', 'test lamp'],
  ['testlamp', 'test lamp'],
  ['lamp', 'test lamp'],
  ['amps', 'amps'],
  ['ammeter', 'amps'],
  ['clamp', 'clamp'],
  ['clamp meter', 'clamp'],
  ['scan', 'scan'],
  ['scan tool', 'scan'],
]);

export function proveLine(cursor: Cursor): Draft {
  const at = cursor.at;
  const words = cursor.takeWords().toLowerCase();
  const mode = MODES.get(words);
  if (mode === undefined)
    throw new LineProblem(
      at,
      words === '' ? 'It is not said what was shown to work' : `"${words}" is no kind of meter`,
      'Type prove volts, ohms, test lamp, amps, clamp or scan.',
    );
  return one({ type: 'proved', mode });
}

export function symptomLine(cursor: Cursor): Draft {
  return one({ type: 'symptom', symptom: takeSymptom(cursor) });
}

/** `undo` takes back the last event that counts, `undo 5` that one; undoing an undo brings the event back. */
export function undoLine(cursor: Cursor, { recorded }: LineContext): Draft {
  const token = cursor.take();
  nothingMore(cursor);
  if (token) return one({ type: 'undone', number: numberOf(token.text, token.at) });
  const last = lastUndoable(recorded);
  if (!last) throw new LineProblem(cursor.at, 'There is nothing to undo', 'Record a step first.');
  return one({ type: 'undone', number: last.number });
}

/** `cause GP2 corroded ground`. */
export function causeLine(cursor: Cursor, context: LineContext): Draft {
  const at = takeAnything(cursor, context);
  return one({ type: 'concluded', at, words: cursor.takeRaw().replace(/^[\s,;:=]+/, '') });
}

export function doneLine(cursor: Cursor): Draft {
  nothingMore(cursor);
  return one({ type: 'closed' });
}

/** A question; `about` says whether a name may follow. */
export function queryLine(query: Query, about: 'anything' | 'word' | 'nothing'): LineParser {
  return (cursor, context) => {
    if (cursor.done) return { kind: 'query', query, about: undefined };
    if (about === 'word') return { kind: 'query', query, about: cursor.takeWords() };
    if (about === 'nothing') nothingMore(cursor);
    const name = takeAnything(cursor, context);
    nothingMore(cursor);
    return { kind: 'query', query, about: name };
  };
}

/** `redraw`, `redraw W4 goes to SP2`: the circuit file was corrected; what follows says how. The shell reads the file anew. */
export function redrawLine(cursor: Cursor): Draft {
  const words = cursor.takeRaw().replace(/^[,;:=]\s*/, '');
  return { kind: 'query', query: 'redraw', about: words === '' ? undefined : words };
}

/** The number of an event: `5` or `#5`. */
export function numberOf(text: string, at: number): number {
  if (/^#?\d{1,9}$/.test(text)) return Number(text.replace('#', ''));
  throw new LineProblem(at, `"${text}" is not the number of an event`, 'To see the numbers: list');
}

function text(cursor: Cursor, message: string, mend: string): string {
  const words = cursor.takeRaw().replace(/^[,;:=]\s*/, '');
  if (words === '') throw new LineProblem(cursor.at, message, mend);
  return words;
}

function one(event: Event): Draft {
  return { kind: 'events', events: [event] };
}
