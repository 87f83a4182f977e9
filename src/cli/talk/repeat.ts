/** What is answered when a failed condition is repeated: a word for the load asked about, or any line of the record. */
import type { Circuit } from '../../circuit/circuit.js';
import type { Finding } from '../../session/case.js';
import { decide } from '../../session/decide.js';
import { describeEvent } from '../../session/describe-event.js';
import type { Event } from '../../session/events.js';
import { ENGINE } from '../../session/fold.js';
import { loadKind } from '../../session/names.js';
import { parseLine, type Line } from '../../session/parse-line.js';
import { parseSight, WORKING } from '../../session/parse-sight.js';
import type { Session } from '../session.js';

type Found = Extract<Event, { type: 'found' }>;

/** Words that people put around the one that counts: "it works again". */
const AROUND = /\b(it|is|they|are|now|again|still|all|both)\b/gi;

/** @param finding the one in which the load failed: a load named without a condition is meant in that one */
export function repeatedLine(answer: string, load: string, finding: Finding, session: Session): Line {
  const { circuit, recorded } = session;
  const kind = loadKind(circuit, load)!;
  const sight = [answer, answer.replace(AROUND, ' ')].map((text) => parseSight(text, kind));
  const seen = sight.find((one) => one.ok);
  if (seen?.ok)
    return checked([repeated({ type: 'found', reading: { kind: 'load', load, value: seen.value } })]);
  const line = parseLine(answer, circuit, recorded);
  if (line.kind === 'events') {
    if (line.events.some(({ type }) => type === 'closed'))
      return refused('The session is closed after these questions', 'Pass over each one with Enter.');
    return checked(line.events.map((event) => (event.type === 'found' ? repeated(event) : event)));
  }
  if (line.kind !== 'error') return line;
  const wrong = sight[0]!;
  const mend = wrong.ok ? '' : wrong.mend;
  const said = `"${answer}" does not say what ${load} does`;
  return refused(said, `${mend} Or a whole line, like: works ${load}. Enter passes over it.`.trim());

  function repeated(event: Found): Found {
    const { reading } = event;
    if (reading.kind !== 'load' || event.before !== undefined) return event;
    const there = { ...event, when: event.when ?? conditionOf(circuit, finding) };
    // Only the load asked about is known to have failed in this condition.
    if (event.symptom !== undefined || !isRepeat(there, load, finding)) return there;
    const good = reading.value === WORKING[kind];
    return { ...there, symptom: good ? 'absent' : 'present' };
  }

  function checked(events: readonly Event[]): Line {
    const decision = decide(circuit, recorded, events);
    if (!decision.ok) return refused(decision.message, decision.mend);
    const now = session.case.now;
    return { kind: 'events', events, echo: events.map((event) => describeEvent(circuit, event, now)) };
  }
}

/** Was the load told about in the very condition of this finding? */
export function isRepeat(event: Event, load: string, { setUp }: Finding): boolean {
  if (event.type !== 'found' || event.reading.kind !== 'load' || event.reading.load !== load) return false;
  const when = new Map(event.when);
  return [...setUp.controls].every(([control, position]) => when.get(control) === position);
}

function refused(message: string, mend: string): Line {
  return { kind: 'error', at: 0, message, mend };
}

function conditionOf(circuit: Circuit, { setUp }: Finding): readonly (readonly [string, string])[] {
  const controls = [...setUp.controls];
  return circuit.controls.has(ENGINE) ? controls : [...controls, [ENGINE, setUp.engine] as const];
}
