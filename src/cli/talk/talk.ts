/** The conversation: suspects left, the suggested test, one line typed, what it proved; again and again. */
import type { Event } from '../../session/events.js';
import { STATUS } from '../io.js';
import { Failure } from '../failure.js';
import type { Output } from '../output.js';
import type { Session } from '../session.js';
import { showAround } from '../show/around.js';
import { showNoTest } from '../show/no-test.js';
import { paragraph } from '../show/page.js';
import { setUpMark } from '../show/record.js';
import { showAttempt, showPreview, showSuggestion } from '../show/suggestion.js';
import { showSuspects } from '../show/suspects.js';
import { answerQuery, printSession } from './answer.js';
import type { Asker } from './asker.js';
import { carryOut, type Confirm } from './carry-out.js';
import { closing } from './closing.js';
import { closes, goBack } from './weak-links.js';
import { understand, type Understood } from './understand.js';

/** `closed`: done, the report is printed. `paused`: it can be resumed. */
export type End = 'closed' | 'paused';

/** A typed `yes`, nothing less. */
export function confirmBy(asker: Asker): Confirm {
  return async (stops) => {
    const question = stops.some(({ id }) => id === 'ohms-live')
      ? 'Type yes only to record it anyway (on a live line it proves nothing), anything else to leave it:'
      : 'Type yes to go on, anything else to leave it:';
    return /^yes$/i.test((await asker.ask(question)) ?? '');
  };
}

/**
 * @param redraw reads the circuit file anew and records it as corrected; throws Failure where it cannot be used
 * @param first a line that was typed already
 */
export async function talk(
  session: Session,
  asker: Asker,
  output: Output,
  redraw: (words: string) => Promise<unknown>,
  first?: string,
): Promise<End> {
  const confirm = confirmBy(asker);
  const all = { session, asker, output, confirm };
  let shown = -1;
  let last: Shown = { suspects: [], around: [], asks: [], test: [] };
  let offered: ReturnType<typeof readyToClose>;
  for (let typed = first; ; typed = undefined) {
    if (asker.person && typed === undefined && shown !== session.recorded.length) {
      shown = session.recorded.length;
      const ready = readyToClose(session);
      const news = ready !== undefined && ready !== offered;
      offered = ready;
      if (news) {
        if (await closing(all)) return closed(session, output);
        if (shown !== session.recorded.length) continue;
      }
      last = showState(session, output, last);
    }
    const text = typed ?? (await asker.ask(promptOf(session)));
    if (text === undefined) return 'paused';
    const line = understand(text, session);
    switch (line.kind) {
      case 'empty':
        break;
      case 'error':
        refuse(line, asker, output);
        break;
      case 'cause':
        if (await closing(all)) return closed(session, output);
        break;
      case 'preview':
        for (const one of showPreview(session.preview(line.line, line.events), session.suggestions[0]))
          output.result(one);
        break;
      case 'events': {
        if (closes(line.events) && (await goBack(session, asker, output))) break;
        const events = await withSymptom(line.events, session, asker, output);
        const fitted = asker.person && session.diagnosis.fits;
        const done = await carryOut(session, events, line.echo, output, confirm);
        // That nothing fits any more is told with what the line changed.
        if (fitted && !session.diagnosis.fits) last = { ...last, suspects: showSuspects(session.diagnosis) };
        if (done.length === 0 && !asker.person)
          throw new Failure(`not recorded: ${text}`, '', STATUS.cannotRun);
        if (done.some(({ event }) => event.type === 'closed')) return closed(session, output);
        break;
      }
      case 'query':
        if (line.query === 'pause') return 'paused';
        if (line.query === 'redraw') {
          await redraw(line.about ?? '').catch((error: unknown) => {
            if (!(error instanceof Failure) || !asker.person) throw error;
            output.complain(error.message, error.mend);
          });
          break;
        }
        answerQuery(line, session, output);
    }
  }
}

/** Why the way to the report can be offered now: the repair is proved, or only one is left. */
function readyToClose(session: Session): 'verified' | 'one left' | undefined {
  const { diagnosis } = session;
  if (session.case.closed) return undefined;
  if (diagnosis.verified) return 'verified';
  return diagnosis.abnormal && diagnosis.groups.length === 1 && !diagnosis.paired ? 'one left' : undefined;
}

function closed(session: Session, output: Output): End {
  printSession(session, output);
  return 'closed';
}

/** What changed since it was last shown; what did not is not repeated. */
function showState(session: Session, output: Output, last: Shown): Shown {
  const { diagnosis } = session;
  const suspects = showSuspects(diagnosis);
  const around = showAround(diagnosis);
  const asks = diagnosis.asks.map((ask) => paragraph(ask, 'First: ', '  '));
  const best = session.suggestions[0];
  const test =
    best === undefined
      ? showNoTest(session.circuit, session.diagnosis, session.alike)
      : [...showAttempt(diagnosis, session.advice.attempt, best), ...showSuggestion(best)];
  const told = [...without(suspects, last.suspects), ...without(around, last.around)];
  const wanted = without(asks, last.asks);
  if (told.length + wanted.length > 0) output.say('');
  for (const line of told) output.say(line);
  for (const line of wanted) output.say(line, 'warning');
  if (without(test, last.test).length > 0) output.say(['', ...test].join('\n'));
  else if (best !== undefined)
    output.say(`Suggested test as before: ${[...best.first, `${best.line} ...`].join('; ')}`);
  return { suspects, around, asks, test };
}

interface Shown {
  readonly suspects: readonly string[];
  readonly around: readonly string[];
  readonly asks: readonly string[];
  readonly test: readonly string[];
}

function without(lines: readonly string[], shown: readonly string[]): readonly string[] {
  return lines.join('\n') === shown.join('\n') ? [] : lines;
}

function promptOf(session: Session): string {
  const mark = `[${setUpMark(session.circuit, session.case.now)}]`;
  return `${mark} >`;
}

/** A person may try again; a script must not go on as if the line had been recorded. */
function refuse(line: Extract<Understood, { kind: 'error' }>, asker: Asker, output: Output): void {
  if (!asker.person) throw new Failure(line.message, line.mend);
  output.complain(line.message, line.mend);
}

/**
 * A load that failed before and works now in the same condition: whether the complaint is gone decides what that proves,
 * so it is asked, once for a line of several loads; nothing else is.
 */
async function withSymptom(
  events: readonly Event[],
  session: Session,
  asker: Asker,
  output: Output,
): Promise<readonly Event[]> {
  if (!asker.person || session.case.symptom === 'absent') return events;
  const asked: Event[] = [];
  let gone: boolean | undefined;
  for (const event of events) {
    if (event.type !== 'found' || event.symptom !== undefined || !recovered(event, session)) {
      asked.push(event);
      continue;
    }
    gone ??= await isGone(asker, output);
    asked.push({ ...event, symptom: gone ? 'absent' : 'present' });
  }
  return asked;
}

/** Asked until it is answered: the next line, typed ahead, is no yes. */
async function isGone(asker: Asker, output: Output): Promise<boolean> {
  for (;;) {
    const answer = await asker.ask(
      'It failed before in this condition. Is the complaint gone now? (Enter = yes, no)',
    );
    if (/^\s*(y|yes)?\s*$/i.test(answer ?? '')) return true;
    if (/^\s*(n|no)\s*$/i.test(answer ?? '')) return false;
    output.complain(
      `"${answer}" is neither yes nor no`,
      'Answer yes or no first, then type that line again.',
    );
  }
}

function recovered(event: Extract<Event, { type: 'found' }>, session: Session): boolean {
  const { reading } = event;
  if (reading.kind !== 'load') return false;
  const when = new Map([...session.case.now.controls, ...(event.when ?? [])]);
  const bad = new Set(session.diagnosis.findings.filter((one) => one.abnormal).map((one) => one.number));
  return session.case.timeline.some(
    (step) =>
      step.kind === 'finding' &&
      bad.has(step.finding.number) &&
      step.finding.reading.kind === 'load' &&
      step.finding.reading.load === reading.load &&
      step.finding.reading.value !== reading.value &&
      [...step.finding.setUp.controls].every(([control, position]) => when.get(control) === position),
  );
}
