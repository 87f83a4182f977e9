/** Re-reasons one recorded or hand-written session and compares what comes out with what it expects. */
import { severityWords } from '../report/severity-words.js';
import type { SeverityRange } from '../files/severity-range.js';
import { readSessionFile, type Expectation } from '../files/session-file.js';
import { readJournal } from '../files/journal.js';
import { printDiagnostics } from '../circuit/print-diagnostic.js';
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';
import { misfits } from './misfits.js';
import { circuitOf } from './open-session.js';
import { memoryRecorder, Session } from './session.js';
import { sessionReport } from './session-report.js';
import { statusOf } from './show/why.js';

export interface Replayed {
  readonly title: string;
  readonly session: Session;
  /** One line for everything that is not as expected; none = it holds. */
  readonly differs: readonly string[];
}

/** Throws Failure where the session cannot be run at all. */
export async function replaySession(context: Context, path: string, shown = path): Promise<Replayed> {
  if (/\.ya?ml$/i.test(path)) {
    const loaded = await readSessionFile(path);
    if ('problems' in loaded)
      throw new Failure(printDiagnostics(loaded.source, shown, loaded.problems).join('\n'));
    const session = new Session(loaded.circuit, loaded.recorded, memoryRecorder(loaded.hash), () => '');
    return { title: loaded.title, session, differs: compare(session, loaded.expect) };
  }
  const { recorded, hash } = await readJournal(path);
  const { circuit } = await circuitOf(context, recorded, {});
  const session = new Session(circuit, recorded, memoryRecorder(hash), () => '');
  // A journal expects nothing but that each of its events can still follow the ones before it on today's drawing.
  return { title: shown, session, differs: misfits(circuit, recorded) };
}

/** What is not as expected, in words. */
export function compare(session: Session, expect: Expectation): readonly string[] {
  const { diagnosis } = session;
  const differs: string[] = [];
  for (const name of expect.suspects ?? [])
    if (!diagnosis.suspects.some((one) => one.faults.some((fault) => [fault.id, fault.part].includes(name))))
      differs.push(`${name} should still be suspect; ${whyNot(diagnosis, name)}`);
  if (expect.top !== undefined) {
    const leading = leadingParts(diagnosis, expect.top.length);
    if (expect.top.some((name) => !leading.includes(name)))
      differs.push(`${expect.top.join(', ')} should lead; ${leading.join(', ') || 'nobody'} leads`);
  }
  for (const [names, allowed, words] of [
    [expect.notOnItsOwn, ['not on its own', 'cleared'], 'should not be suspect on its own'],
    [expect.cleared, ['cleared'], 'should be cleared'],
  ] as const)
    for (const name of names ?? []) {
      const status = statusOf(diagnosis, name)?.status ?? 'unknown';
      if (!(allowed as readonly string[]).includes(status))
        differs.push(`${name} ${words}; it is: ${status}`);
    }
  if (expect.notBlamed !== undefined) {
    const { cause } = sessionReport(session, true, false);
    const blamed = cause.certainty === 'confirmed' || cause.certainty === 'only one left' ? cause.parts : [];
    for (const name of expect.notBlamed)
      if (blamed.includes(name))
        differs.push(`${name} should not be blamed; the report calls it ${cause.certainty}`);
  }
  for (const [fault, range] of expect.severity ?? [])
    differs.push(...severityDiffers(diagnosis, fault, range));
  const open = [...diagnosis.open].sort((a, b) => b.share - a.share)[0]?.what ?? 'none';
  if (expect.open !== undefined && open !== expect.open)
    differs.push(`${expect.open} should weigh most of what is open; it is: ${open}`);
  const course = diagnosis.suspects[0]?.course ?? 'no suspect';
  if (expect.course !== undefined && course !== expect.course)
    differs.push(`the leading suspect should fit as: ${expect.course}; it fits as: ${course}`);
  for (const key of ['fits', 'verified'] as const)
    if (expect[key] !== undefined && diagnosis[key] !== expect[key])
      differs.push(`${key} should be ${String(expect[key])}; it is ${String(diagnosis[key])}`);
  return differs;
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

/** The parts of the likeliest explanations, as many as are asked for, equals together. */
function leadingParts(diagnosis: Diagnosis, count: number): readonly string[] {
  const shares = new Map<string, number>();
  for (const { faults, share } of diagnosis.suspects)
    for (const part of new Set(faults.map((fault) => fault.part)))
      shares.set(part, (shares.get(part) ?? 0) + share);
  const ranked = [...shares].sort(([, a], [, b]) => b - a);
  const least = ranked[Math.min(count, ranked.length) - 1]?.[1] ?? 0;
  return ranked.filter(([, share]) => share >= least * (1 - 1e-9)).map(([part]) => part);
}

function whyNot(diagnosis: Diagnosis, name: string): string {
  const fell = diagnosis.fallen.find((one) =>
    one.faults.some((fault) => [fault.id, fault.part].includes(name)),
  );
  return fell === undefined
    ? 'nothing is recorded that makes it one'
    : `finding ${fell.reason.finding} was ${fell.reason.reading}, it would have been ${fell.reason.prediction}`;
}
