/** `suspects`, `next`, `why` and `report`: what a session says, without changing it. */
import { printReport } from '../../report/report.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import { lookAtSession, type SessionFlags } from '../open-session.js';
import { jsonText } from '../output.js';
import { sessionReport } from '../session-report.js';
import { showAlike, showAround } from '../show/around.js';
import { paragraph } from '../show/page.js';
import { showAttempt, showPreview, showSuggestions } from '../show/suggestion.js';
import { showNoTest } from '../show/no-test.js';
import { showSuspects } from '../show/suspects.js';
import { showWhy, statusOf } from '../show/why.js';
import { weakSpotIn } from '../../circuit/weak-spot.js';
import { previewed } from '../talk/understand.js';

export interface AskFlags extends SessionFlags {
  readonly json?: boolean;
}

export interface SuspectsFlags extends AskFlags {
  /** Judge every pair of faults. */
  readonly thorough?: boolean;
}

export async function suspects(context: Context, flags: SuspectsFlags): CommandResult {
  const { output } = context;
  const { session } = await lookAtSession(context, flags);
  const diagnosis = flags.thorough ? session.thorough() : session.diagnosis;
  const { alike } = session;
  if (flags.json) {
    const { groups, paired, pairsExamined, triples, fits, abnormal, parts, open, asks, verified } = diagnosis;
    const { blown, hidden, assumedAway } = diagnosis;
    const states = parts.map(({ part, label, status, share }) => ({ part, label, status, share }));
    output.json('suspects', {
      fits,
      abnormal,
      paired,
      pairsExamined,
      triples,
      verified,
      groups,
      parts: states,
      open,
      blown,
      hidden,
      assumedAway,
      alike,
      asks,
    });
  } else {
    for (const line of [
      ...showSuspects(diagnosis, Infinity),
      ...showAround(diagnosis, Infinity),
      ...showAlike(alike),
    ])
      output.result(line);
    for (const ask of diagnosis.asks) output.result(paragraph(ask, 'First: ', '  '));
  }
  return STATUS.ok;
}

/** @param own a test of the person's own: what it would bring, instead of the suggested ones */
export async function next(context: Context, own: readonly string[], flags: AskFlags): CommandResult {
  const { output } = context;
  const { session } = await lookAtSession(context, flags);
  const { suggestions, diagnosis } = session;
  const print = (lines: readonly string[]): void => lines.forEach((line) => output.result(line));
  if (own.length > 0) {
    const line = previewed(own.join(' ').replace(/\s*\?$/, ''), session);
    if (line.kind === 'error') throw new Failure(line.message, line.mend);
    if (line.kind !== 'preview')
      throw new Failure('This is no test', 'Name one without its reading: knowngood next volts X3.1h');
    const preview = session.preview(line.line, line.events);
    if (flags.json)
      output.json('next', { preview, suggestions: suggestions.slice(0, 1), asks: diagnosis.asks });
    else print(showPreview(preview, suggestions[0]));
  } else if (flags.json) {
    const { attempt } = session.advice;
    const trying =
      attempt === undefined
        ? {}
        : { attempt: { ...attempt, repair: diagnosis.groups[attempt.group]!.repair } };
    output.json('next', { suggestions, ...trying, asks: diagnosis.asks });
  } else if (suggestions.length === 0) print(showNoTest(session.circuit, diagnosis, session.alike));
  else
    print([
      ...showAttempt(diagnosis, session.advice.attempt, suggestions[0]),
      ...showSuggestions(suggestions),
    ]);
  return STATUS.ok;
}

export async function why(context: Context, name: string, flags: AskFlags): CommandResult {
  const { output } = context;
  const { diagnosis, circuit } = (await lookAtSession(context, flags)).session;
  const status = statusOf(diagnosis, name);
  if (status === undefined)
    throw new Failure(
      `this circuit has no part or wire "${name}"`,
      'Names are those of the circuit file, like F4 or W3.',
    );
  if (flags.json) {
    const suspects = diagnosis.suspects.filter((one) =>
      one.faults.some((fault) => fault.part === status.part),
    );
    const of = (part: string): boolean => part === status.part;
    const hidden = diagnosis.hidden.filter(({ faults }) => faults.some((fault) => of(fault.part)));
    const assumedAway = diagnosis.assumedAway.filter((fault) => of(fault.part));
    const weakSpot = weakSpotIn(circuit, status.part);
    output.json('why', { ...status, suspects, hidden, assumedAway, weakSpot });
  } else for (const line of showWhy(circuit, diagnosis, status)) output.result(line);
  return STATUS.ok;
}

export interface ReportFlags extends AskFlags {
  readonly markdown?: boolean;
  /** False leaves out names and the vehicle's identity. */
  readonly personal?: boolean;
}

export async function report(context: Context, flags: ReportFlags): CommandResult {
  const { output } = context;
  const { session } = await lookAtSession(context, flags);
  const made = sessionReport(session, flags.personal ?? true);
  if (flags.json) output.result(jsonText(made));
  else
    output.result(printReport(made, flags.markdown ? 'markdown' : 'text', { ascii: output.ascii }).trimEnd());
  return STATUS.ok;
}
