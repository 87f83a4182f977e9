/**
 * One typed line to events: the only grammar of the program. The prompt, the `record` command, answers files and the
 * steps of hand-written sessions all come through here, so that what works in one works in all.
 */
import { nearest } from '../circuit/nearest.js';
import type { Circuit } from '../circuit/circuit.js';
import { decide, standingSetUp } from './decide.js';
import { describeEvent } from './describe-event.js';
import { edit } from './actions.js';
import type { Event, Recorded } from './events.js';
import { ENGINE } from './standing.js';
import { operateLine } from './line/action-lines.js';
import type { Draft, LineContext, Query } from './line/context.js';
import { Cursor } from './line/cursor.js';
import { seenLine } from './line/finding-lines.js';
import { controlNear } from './line/positions.js';
import { LineProblem } from './line/problem.js';
import { numberOf } from './line/record-lines.js';
import { tokensOf } from './line/tokens.js';
import { VERB_WORDS, VERBS } from './line/verbs.js';
import { namesOf } from './names.js';
import { isSight } from './parse-sight.js';

export type { Query } from './line/context.js';

/** Longest line taken, in UTF-16 units: more is a paste gone wrong, and a record is read by people. */
const LONGEST = 2000;

export type Line =
  /** Checked against the session: these may be recorded as they are. `echo`: one line of words an event. */
  | { readonly kind: 'events'; readonly events: readonly Event[]; readonly echo: readonly string[] }
  /** `about`: a name in the file's spelling (why), a word (help), what was corrected (redraw), or nothing. */
  | { readonly kind: 'query'; readonly query: Query; readonly about: string | undefined }
  /** Blank, or a `#` comment. */
  | { readonly kind: 'empty' }
  /** `at`: offset in the line of what is wrong, 0 = its first character. */
  | { readonly kind: 'error'; readonly at: number; readonly message: string; readonly mend: string };

/** What a line typed now, after these recorded events, means. */
export function parseLine(line: string, circuit: Circuit, recorded: readonly Recorded[] = []): Line {
  try {
    return meaningOf(line, circuit, recorded);
  } catch (problem) {
    if (!(problem instanceof LineProblem)) throw problem;
    return { kind: 'error', at: problem.at, message: problem.message, mend: problem.mend };
  }
}

/** The grammar as a table: heading, then usage and meaning. */
export const HELP: readonly (readonly [
  heading: string,
  lines: readonly (readonly [usage: string, meaning: string])[],
])[] = VERBS.map(
  ([heading, verbs]) => [heading, verbs.map(({ usage, meaning }) => [usage, meaning] as const)] as const,
);

function meaningOf(line: string, circuit: Circuit, recorded: readonly Recorded[]): Line {
  if (line.length > LONGEST)
    throw new LineProblem(
      LONGEST,
      `The line has ${line.length} characters; at most ${LONGEST} are taken`,
      'Cut it in two.',
    );
  const tokens = tokensOf(line);
  if (tokens.length === 0 || line.trimStart().startsWith('#')) return { kind: 'empty' };
  const cursor = new Cursor(line, tokens, line.trimEnd().length, tokens[0]!.at);
  const names = namesOf(circuit);
  const before = isLate(cursor) ? takeLate(cursor) : undefined;
  if (before !== undefined && !recorded.some((entry) => entry.number === before.number))
    throw new LineProblem(before.at, ...noEvent(before.number, recorded));
  const standing = standingSetUp(circuit, recorded, before?.number);
  const start = cursor.at;
  const statement = new Cursor(line, tokensOf(line, start), cursor.end, start);
  const draft = parseVerb(statement, { circuit, names, recorded, standing });
  if (draft.kind === 'query') {
    if (before) throw new LineProblem(start, 'A question has no place in time', 'Type it without late.');
    return draft;
  }
  const events = before ? draft.events.map((event) => late(event, before.number, start)) : draft.events;
  const decision = decide(circuit, recorded, events);
  if (!decision.ok) throw new LineProblem(start, decision.message, decision.mend);
  return { kind: 'events', events, echo: echoOf(events, circuit, recorded, standing) };
}

function parseVerb(cursor: Cursor, context: LineContext): Draft {
  const { circuit, names } = context;
  const first = cursor.peek();
  if (!first)
    throw new LineProblem(cursor.at, 'The line stops here', 'Type what was found or done; see help.');
  if (startsWithControl(cursor, context)) return operateLine(cursor, context);
  const verbNames = new Map([...VERB_WORDS.keys()].map((word) => [word, word]));
  const word = cursor.takeName(verbNames);
  if (word !== undefined) return VERB_WORDS.get(word)!.parse(cursor.remaining(), context);
  if (names.controls.has(first.lower) || first.lower === ENGINE) return operateLine(cursor, context);
  const part = first.lower.split('.')[0]!;
  if (names.loads.has(first.lower) || names.parts.has(first.lower)) return seenLine()(cursor, context);
  if (names.points.has(first.lower) || names.pins.has(first.lower) || names.wires.has(first.lower))
    throw new LineProblem(
      first.at,
      `"${first.text}" alone does not say what was done there`,
      `Start with volts, ohms, beep, look ...: for example volts ${first.text} 11.4`,
    );
  const [load] = names.loads.values();
  if (load !== undefined && isSight(first.lower))
    throw new LineProblem(
      first.at,
      `"${first.text}" alone does not say of what`,
      `Name the load first: for example ${load} ${first.lower}.`,
    );
  const close =
    nearest(first.text, [
      ...VERB_WORDS.keys(),
      ...circuit.controls.keys(),
      ...names.loads.values(),
      ENGINE,
    ]) ?? controlNear(first.text, circuit);
  throw new LineProblem(
    first.at,
    names.parts.has(part)
      ? `There is no "${first.text}" in this circuit`
      : `A line cannot start with "${first.text}"`,
    close === undefined
      ? 'Start with what you did or saw, for example volts, fails or a control; see help.'
      : `Did you mean ${close}?`,
  );
}

/** A control with one of its own positions goes before a verb of the same spelling. */
function startsWithControl(cursor: Cursor, { circuit, names }: LineContext): boolean {
  const probe = cursor.remaining();
  const control = probe.takeName(names.controls);
  if (control === undefined) return false;
  probe.skipNoise(['in', 'is', 'to']);
  const positions = circuit.controls.get(control)!.positions;
  return (
    probe.takeName(new Map(positions.map((position) => [position.toLowerCase(), position]))) !== undefined
  );
}

function isLate(cursor: Cursor): boolean {
  const word = cursor.peek()?.lower;
  return word === 'late' || word === 'before';
}

function takeLate(cursor: Cursor): { readonly number: number; readonly at: number } {
  cursor.skip(1);
  cursor.skipNoise(['before', 'event']);
  const token = cursor.take();
  if (!token)
    throw new LineProblem(
      cursor.at,
      'The number of the event is missing',
      'For example: late 5 volts F4.1 12.5',
    );
  return { number: numberOf(token.text, token.at), at: token.at };
}

function late(event: Event, before: number, at: number): Event {
  if (event.type === 'found' || event.type === 'did') return { ...event, before };
  throw new LineProblem(at, 'Only findings and actions have a place in time', 'Type this line without late.');
}

function noEvent(number: number, recorded: readonly Recorded[]): [string, string] {
  const last = recorded.at(-1)?.number;
  return [
    `There is no event ${number}`,
    last === undefined ? 'Nothing is recorded yet.' : `Events are numbered 1 to ${last}. To see them: list`,
  ];
}

function echoOf(
  events: readonly Event[],
  circuit: Circuit,
  recorded: readonly Recorded[],
  standing: LineContext['standing'],
): readonly string[] {
  let setUp = standing;
  return events.map((event) => {
    if (event.type === 'did') setUp = edit(event.action, setUp);
    if (event.type !== 'undone') return describeEvent(circuit, event, setUp);
    const target = recorded.find((entry) => entry.number === event.number)!;
    const what = describeEvent(circuit, target.event, standingSetUp(circuit, recorded, event.number));
    return target.event.type === 'undone'
      ? `event ${target.event.number} counts again`
      : `event ${event.number} counts no more: ${what}`;
  });
}
