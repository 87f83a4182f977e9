/** What a typed line means in the conversation: a line of the grammar, or an answer to the suggested test. */
import type { Suggestion } from '../../planning/suggestion.js';
import type { Event, Recorded } from '../../session/events.js';
import { parseLine, type Line } from '../../session/parse-line.js';
import { parseSkipReason } from '../../session/parse-reading.js';
import type { Session } from '../session.js';

export type Understood =
  | Line
  | { readonly kind: 'cause' }
  /** A test that is only asked about: `volts X3.1h ?`. */
  | { readonly kind: 'preview'; readonly line: string; readonly events: readonly Event[] };

/** The suggestion is worked out only when the line makes no sense without it. */
export function understand(text: string, session: Session): Understood {
  if (/^cause$/i.test(text.trim())) return { kind: 'cause' };
  const asked = /^(.*\S)\s*\?$/.exec(text.trim())?.[1];
  if (asked !== undefined) return previewed(asked, session);
  const line = parseLine(text, session.circuit, session.recorded);
  if (line.kind !== 'error') return line;
  const suggestion = session.suggestions[0];
  if (suggestion === undefined) return line;
  const why = parseSkipReason(text);
  if (why !== undefined) {
    const event: Event = { type: 'skipped', test: suggestion.line, why };
    return { kind: 'events', events: [event], echo: [`not done (${why}): ${suggestion.line}`] };
  }
  const answer = answerTo(suggestion, text, session);
  // A number is surely meant as the reading: then its own mistake is the one to tell.
  return answer.kind === 'events' || /^[-+.,\d]/.test(text.trim()) ? answer : line;
}

/** Readings by which a test without one can be parsed; none of them is recorded. */
const ANY_READING = ['', ' 1', ' OL', ' yes', ' lit', ' off', ' runs', ' silent', ' stopped', ' good'];

/** A test somebody would rather do, written as if it had a reading; its own mistake where it makes no sense with any. */
export function previewed(text: string, session: Session): Understood {
  const { circuit, recorded } = session;
  for (const reading of ANY_READING) {
    // The condition stands last: volts X3.1h when pedal down ?
    const line = parseLine(text.replace(/(\s+when\s.*)?$/i, `${reading}$1`), circuit, recorded);
    if (line.kind === 'events') return { kind: 'preview', line: text, events: line.events };
    if (line.kind === 'query') return line;
  }
  const line = parseLine(text, circuit, recorded);
  return line.kind === 'error' ? line : { kind: 'empty' };
}

/** The suggestion's steps and its reading, in one go. */
function answerTo(suggestion: Suggestion, text: string, session: Session): Line {
  const events: Event[] = [];
  const echo: string[] = [];
  const soFar: Recorded[] = [...session.recorded];
  for (const step of [...suggestion.first, `${suggestion.line} ${text}`]) {
    const line = parseLine(step, session.circuit, soFar);
    if (line.kind !== 'events') return line;
    for (const event of line.events) soFar.push({ number: (soFar.at(-1)?.number ?? 0) + 1, at: '', event });
    events.push(...line.events);
    echo.push(...line.echo);
  }
  return { kind: 'events', events, echo };
}
