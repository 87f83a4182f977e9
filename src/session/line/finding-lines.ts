/** Lines that record findings: what a load does, how a part looks, what a meter reads, what somebody said. */
import { loadKind } from '../names.js';
import type { Event, Reading, Sight } from '../events.js';
import { parseSkipReason } from '../parse-reading.js';
import { FAILING, isSight, parseLook, parseSight, WORKING } from '../parse-sight.js';
import type { Draft, LineContext } from './context.js';
import type { Cursor } from './cursor.js';
import { splitEndings, type Endings } from './endings.js';
import type { Measured } from './measurements.js';
import { LineProblem } from './problem.js';
import { takeAnything, takeLoad } from './targets.js';

export type Evidence = 'told' | undefined;

/** A measuring line: the given reader on the head of the line, then the endings. */
export function measuredLine(
  take: (cursor: Cursor, context: LineContext) => Measured,
): (cursor: Cursor, context: LineContext) => Draft {
  return (cursor, context) => {
    const { head, endings } = splitEndings(cursor, context);
    const measured = take(head, context);
    if ('skipped' in measured)
      return events([
        { type: 'skipped', test: testText(measured.test, cursor, head), why: measured.skipped },
      ]);
    const { reading, battery } = measured;
    return events([found(reading, endings, undefined, battery === undefined ? {} : { battery })]);
  };
}

/** `fails H1 H2 when …` and `works B1 when …`: one finding a load, in the word for its kind. */
export function allOf(
  words: typeof FAILING | typeof WORKING,
  evidence?: Evidence,
): (cursor: Cursor, context: LineContext) => Draft {
  return (cursor, context) => {
    const { head, endings } = splitEndings(cursor, context);
    const loads = takeLoads(head, context);
    if (!head.done) takeLoad(head, context);
    return events(
      loads.map((load) =>
        found({ kind: 'load', load, value: words[loadKind(context.circuit, load)!] }, endings, evidence),
      ),
    );
  };
}

/** `H1 H2 dim`, `see H1 dim`, and `F4 blown` as a short form of look. */
export function seenLine(evidence?: Evidence): (cursor: Cursor, context: LineContext) => Draft {
  return (cursor, context) => {
    const { head, endings } = splitEndings(cursor, context);
    const first = head.peek();
    const isPart = first !== undefined && context.names.parts.has(first.lower);
    if (isPart && !context.names.loads.has(first.lower) && !severalFilaments(first.lower, context))
      return lookAt(head, context, endings, evidence, cursor);
    const loads = takeLoads(head, context);
    const at = head.at;
    const test = head.textBefore(at);
    const text = head.takeWords();
    const why = parseSkipReason(text);
    if (why !== undefined) return events([{ type: 'skipped', test: testText(test, cursor, head), why }]);
    if (text === '')
      throw new LineProblem(
        at,
        `It is not said what ${loads.join(', ')} does`,
        'For example lit, dim or off.',
      );
    const look = parseLook(text);
    if (!isSight(text) && look.ok && loads.every((load) => context.circuit.parts.has(load)))
      return events(
        loads.map((load) => found({ kind: 'look', at: load, value: look.value }, endings, evidence)),
      );
    return events(
      loads.map((load) => {
        const sight = parseSight(text, loadKind(context.circuit, load)!);
        if (!sight.ok) throw new LineProblem(at, sight.message, sight.mend);
        return found({ kind: 'load', load, value: sight.value as Sight }, endings, evidence);
      }),
    );
  };
}

/** `look F4 blown`. */
export function lookLine(cursor: Cursor, context: LineContext): Draft {
  const { head, endings } = splitEndings(cursor, context);
  head.skipNoise(['at']);
  return lookAt(head, context, endings, undefined, cursor);
}

/** `told H1 off`, `told fails H1 H2`, `told works B1`. */
export function toldLine(cursor: Cursor, context: LineContext): Draft {
  cursor.skipNoise(['that']);
  const word = cursor.peek()?.lower;
  const words = word === 'fails' ? FAILING : word === 'works' ? WORKING : undefined;
  if (words === undefined) return seenLine('told')(cursor.remaining(), context);
  cursor.skip(1);
  return allOf(words, 'told')(cursor.remaining(), context);
}

function lookAt(
  head: Cursor,
  context: LineContext,
  endings: Endings,
  evidence: Evidence,
  whole: Cursor,
): Draft {
  const at = takeAnything(head, context);
  head.skipNoise(['is', 'looks']);
  const valueAt = head.at;
  const test = head.textBefore(valueAt);
  const text = head.takeWords();
  const why = parseSkipReason(text);
  if (why !== undefined) return events([{ type: 'skipped', test: testText(test, whole, head), why }]);
  const look = parseLook(text);
  if (!look.ok) throw new LineProblem(valueAt, look.message, look.mend);
  return events([found({ kind: 'look', at, value: look.value }, endings, evidence)]);
}

function takeLoads(cursor: Cursor, context: LineContext): readonly string[] {
  const loads = [takeLoad(cursor, context)];
  for (;;) {
    cursor.skipNoise(['and', 'is', 'are']);
    const load = cursor.takeName(context.names.loads);
    if (load === undefined) return loads;
    if (!loads.includes(load)) loads.push(load);
  }
}

function severalFilaments(lower: string, { names }: LineContext): boolean {
  return [...names.loads.keys()].some((load) => load.startsWith(`${lower}.`));
}

function found(
  reading: Reading,
  endings: Endings,
  evidence?: Evidence,
  extra: Partial<Extract<Event, { type: 'found' }>> = {},
): Event {
  return { type: 'found', reading, ...extra, ...(evidence === undefined ? {} : { evidence }), ...endings };
}

/** A test that was not done, as a line that would do it: what was typed without the answer. */
function testText(test: string, whole: Cursor, head: Cursor): string {
  return [test, whole.line.slice(head.end, whole.end).trim()].filter((text) => text !== '').join(' ');
}

function events(list: readonly Event[]): Draft {
  return { kind: 'events', events: list };
}
