/** What a session written by hand expects, held against what the reasoner and the report say today. */
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import type { Expectation } from '../../files/session-expect.js';
import type { SeverityRange } from '../../files/severity-range.js';
import { leadingOpen, leadingParts, reportedCause } from '../../report/judgement-of.js';
import { severityWords } from '../../report/severity-words.js';
import type { Session } from '../session.js';
import { statusOf } from '../show/why.js';

export interface Difference {
  /** The entry under `expect`. */
  readonly key: keyof Expectation;
  readonly line: string;
}

/** One entry for everything that is not as expected; none = all holds. */
export function compareExpected(session: Session, expect: Expectation): readonly Difference[] {
  const diagnosis = mayBeCleared(session, expect.cleared ?? []) ? session.thorough() : session.diagnosis;
  const differs: Difference[] = [];
  const tell = (key: keyof Expectation, line: string): void => void differs.push({ key, line });

  for (const name of expect.suspects ?? [])
    if (!isSuspect(diagnosis, name))
      tell('suspects', `${name} should still be suspect; ${whyNot(diagnosis, name)}`);
  if (expect.top !== undefined) {
    const leading = leadingParts(diagnosis, expect.top.length);
    if (expect.top.some((name) => !leading.includes(name)))
      tell('top', `${expect.top.join(', ')} should lead; ${leading.join(', ') || 'nobody'} leads`);
  }
  for (const [key, allowed, words] of [
    ['notOnItsOwn', ['not on its own', 'cleared'], 'should not be suspect on its own'],
    ['cleared', ['cleared'], 'should be cleared'],
  ] as const)
    for (const name of expect[key] ?? []) {
      const status = statusOf(diagnosis, name)?.status ?? 'unknown';
      if (!(allowed as readonly string[]).includes(status)) tell(key, `${name} ${words}; it is: ${status}`);
    }
  compareCause(session, expect, tell);
  for (const [fault, range] of expect.severity ?? [])
    for (const line of severityDiffers(diagnosis, fault, range)) tell('severity', line);
  const open = leadingOpen(diagnosis);
  if (expect.open !== undefined && open !== expect.open)
    tell('open', `${expect.open} should weigh most of what is open; it is: ${open}`);
  const course = diagnosis.suspects[0]?.course ?? 'no suspect';
  if (expect.course !== undefined && course !== expect.course)
    tell('course', `the leading suspect should fit as: ${expect.course}; it fits as: ${course}`);
  for (const key of ['fits', 'verified'] as const)
    if (expect[key] !== undefined && diagnosis[key] !== expect[key])
      tell(key, `${key} should be ${String(expect[key])}; it is ${String(diagnosis[key])}`);
  if (expect.next !== undefined) {
    const next = nextTest(session);
    if (plain(next) !== plain(expect.next))
      tell('next', `the next test should be: ${expect.next}; it is: ${next || 'none'}`);
  }
  return differs;
}

/** Only when every pair was judged can a part be called cleared. That takes long, and no suspect of now is cleared by it. */
function mayBeCleared({ diagnosis }: Session, names: readonly string[]): boolean {
  const states = names.map((name) => statusOf(diagnosis, name)?.status ?? 'unknown');
  return (
    states.includes('not on its own') && states.every((one) => ['not on its own', 'cleared'].includes(one))
  );
}

/** Line of the suggested test; empty when there is none. */
export function nextTest(session: Session): string {
  return session.suggestions[0]?.line ?? '';
}

export function isSuspect(diagnosis: Diagnosis, name: string): boolean {
  return diagnosis.suspects.some((one) => one.faults.some((fault) => [fault.id, fault.part].includes(name)));
}

/** What the report calls bad, when it calls it so. */
export function blamedParts(session: Session): readonly string[] {
  const { certainty, parts } = reportedCause(session.circuit, session.case, session.diagnosis);
  return certainty === 'confirmed' || certainty === 'only one left' ? parts : [];
}

function compareCause(
  session: Session,
  expect: Expectation,
  tell: (key: keyof Expectation, line: string) => void,
): void {
  if (expect.notBlamed === undefined && expect.cause === undefined && expect.certainty === undefined) return;
  const { certainty, parts } = reportedCause(session.circuit, session.case, session.diagnosis);
  const blamed = blamedParts(session);
  for (const name of expect.notBlamed ?? [])
    if (blamed.includes(name))
      tell('notBlamed', `${name} should not be blamed; the report calls it ${certainty}`);
  if (expect.cause !== undefined) {
    const [wanted, named] = [expect.cause, parts].map((list) => [...list].sort().join(', '));
    if (wanted !== named)
      tell('cause', `the report should name ${wanted} as the cause; it names ${named || 'nothing'}`);
  }
  if (expect.certainty !== undefined && certainty !== expect.certainty)
    tell('certainty', `the cause should be ${expect.certainty}; it is ${certainty}`);
}

/** The fitted range must meet the expected one. */
function severityDiffers(diagnosis: Diagnosis, fault: string, range: SeverityRange): readonly string[] {
  const suspect = diagnosis.suspects.find(({ faults }) => faults.some(({ id }) => id === fault));
  if (suspect === undefined) return [`${fault} should have a severity; ${whyNot(diagnosis, fault)}`];
  const fitted = suspect.severities[suspect.faults.findIndex(({ id }) => id === fault)];
  if (fitted === undefined) return [`${fault} should have a severity; none was fitted`];
  const meets = fitted.unit === range.unit && fitted.low <= range.high && fitted.high >= range.low;
  return meets ? [] : [`${fault} has another severity: ${severityWords(fitted) ?? 'without limits'}`];
}

function whyNot(diagnosis: Diagnosis, name: string): string {
  const fell = diagnosis.fallen.find((one) =>
    one.faults.some((fault) => [fault.id, fault.part].includes(name)),
  );
  return fell === undefined
    ? 'nothing is recorded that makes it one'
    : `finding ${fell.reason.finding} was ${fell.reason.reading}, it would have been ${fell.reason.prediction}`;
}

function plain(line: string): string {
  return line.trim().replace(/\s+/g, ' ').toLowerCase();
}
