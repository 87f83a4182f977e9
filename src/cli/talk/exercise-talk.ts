/** The conversation of an exercise: the same lines as in any session, but the vehicle answers, the clock runs, and help is as allowed. */
import type { Event } from '../../session/events.js';
import { describeEvent } from '../../session/describe-event.js';
import type { Run } from '../../exercise/run.js';
import { studentLine, type StudentLine } from '../../exercise/student-line.js';
import { Failure } from '../failure.js';
import type { Output } from '../output.js';
import type { Session } from '../session.js';
import { paragraph } from '../show/page.js';
import { setUpMark, showList, showSetUp } from '../show/record.js';
import { showHelp } from '../show/help.js';
import { showSuggestion } from '../show/suggestion.js';
import { showSuspects } from '../show/suspects.js';
import { answerQuery } from './answer.js';
import type { Asker } from './asker.js';

export interface ExerciseTalk {
  readonly run: Run;
  /** Where it is recorded; also works out the help that the exercise allows. */
  readonly session: Session;
  readonly asker: Asker;
  readonly output: Output;
}

/** What the student reads first. */
export function introduce({ run, output }: ExerciseTalk): void {
  const { exercise, bench } = run;
  output.say(exercise.title, 'strong');
  output.say(paragraph(exercise.concern, 'Concern: ', '  '));
  for (const line of exercise.complaint) output.say(`  the customer: ${line}`);
  output.say(paragraph([...exercise.tools].join(', ') || 'none: eyes, ears and hands', 'Tools: ', '  '));
  // What the exercise leaves to the planner's road is not told: working it out would take as long.
  const { minutes, money } = exercise.budget;
  const limits = [
    ...(minutes === undefined ? [] : [`${minutes} min`]),
    ...(money === undefined ? [] : [`${money} in parts and work bought`]),
  ];
  if (limits.length > 0) output.say(`Budget: ${limits.join(', ')}`);
  if (exercise.hints.length > 0) output.say(`Hints: ${exercise.hints.length}, each at its price; type hint`);
  if (bench.circuit.about !== '') output.say(paragraph(bench.circuit.about));
  for (const line of HOW_TO) output.say(paragraph(line, '', '  '), 'faint');
}

const HOW_TO = [
  'The vehicle is simulated: type a test without its reading, and it answers. H1, volts F4.2, volts F4.2 GP3, ohms F4, look X3, clamp W3, testlamp X3.1h; any of them with: when CONTROL POSITION.',
  'Work as in any session: pedal down, unplug X3, out F4, new F4, clean GP3, repair W4 spliced, wiggle X3. Also: predict low; clears F4 open; hint; clock; concern; undo; list; help.',
  'At the end: the repair, the failed condition looked at again, cause X3 and your words, then done.',
];

/** What to do in place of what an exercise has not. */
const INSTEAD: Readonly<Record<string, string>> = {
  draw: 'The drawing is on your sheet, or in another window: knowngood draw and the name of the circuit.',
  report: 'The report comes after done.',
  redraw: 'The drawing of an exercise stays as it is.',
};

/** `closed`: done. `paused`: it can be resumed. */
export async function exerciseTalk(talk: ExerciseTalk): Promise<'closed' | 'paused'> {
  const { run, session, asker, output } = talk;
  for (;;) {
    const text = await asker.ask(promptOf(run));
    if (text === undefined) return 'paused';
    const line = studentLine(text, session.circuit, run.recorded);
    switch (line.kind) {
      case 'empty':
        break;
      case 'error':
        slip(line, asker, output);
        break;
      case 'query':
        if (line.query === 'pause') return 'paused';
        await answer(talk, line);
        break;
      case 'events': {
        const refused = run.refusal(line.events);
        if (refused !== undefined) slip(refused, asker, output);
        else if (await meant(talk, line.events)) {
          await carryOut(talk, line.events);
          if (run.case.closed) return 'closed';
        }
      }
    }
  }
}

/** Does the drafts to the vehicle, records what came of them, and shows it once it is safe. */
export async function carryOut(
  { run, session, output }: ExerciseTalk,
  drafts: readonly Event[],
): Promise<void> {
  const before = run.vehicle.setUp;
  const mets = await run.meet(drafts);
  const recorded = await session.record(mets.map(({ event }) => event));
  await run.accept(recorded);
  for (const [index, { number, event }] of recorded.entries()) {
    const standing = event.type === 'did' ? before : run.standing(number);
    output.say(paragraph(describeEvent(session.circuit, event, standing), `#${number} `, '   '), 'good');
    for (const notice of mets[index]!.notices) output.say(paragraph(notice, '  '), 'warning');
    const { unsafe } = mets[index]!;
    if (unsafe !== undefined) output.say(paragraph(unsafe.words, '  UNSAFE, noted: ', '  '), 'error');
  }
  const { help } = run.exercise;
  if (help === 'none' || !drafts.some(({ type }) => type === 'found' || type === 'did')) return;
  for (const line of showSuspects(session.diagnosis)) output.say(line);
  const [best] = session.suggestions;
  if (help !== 'suspects' && best !== undefined) for (const line of showSuggestion(best)) output.say(line);
}

function promptOf(run: Run): string {
  const { minutes, money } = run.spent;
  const cost = `${minutes.toFixed(1)} min${money > 0 ? `, ${money.toFixed(2)}` : ''}`;
  return `[${setUpMark(run.bench.circuit, run.case.now)}] ${cost} >`;
}

/** A jumper is asked about whatever it joins, and closing too: a slip there could not be taken back. */
async function meant({ asker, run, output }: ExerciseTalk, drafts: readonly Event[]): Promise<boolean> {
  if (!asker.person) return true;
  for (const event of drafts) {
    if (event.type === 'did' && event.action.do === 'jumper') {
      const answer = await asker.ask(`Jumper from ${event.action.between.join(' to ')}? (Enter = yes, no)`);
      if (answer === undefined || /^n/i.test(answer)) return false;
    }
    if (event.type === 'closed' && run.case.concluded === undefined) {
      output.say('No cause has been named: cause X3 and your words.', 'warning');
      const answer = await asker.ask('Close the exercise all the same? (yes, Enter = no)');
      if (answer === undefined || !/^y/i.test(answer)) return false;
    }
  }
  return true;
}

async function answer(talk: ExerciseTalk, line: Extract<StudentLine, { kind: 'query' }>): Promise<void> {
  const { run, session, asker, output } = talk;
  const { help } = run.exercise;
  switch (line.query) {
    case 'hint':
      return hint(talk);
    case 'clock': {
      const { minutes, money } = run.spent;
      output.say(`${minutes.toFixed(1)} min and ${money.toFixed(2)} in money so far`);
      return;
    }
    case 'concern':
      output.say(paragraph(run.exercise.concern, 'Concern: ', '  '));
      for (const told of run.exercise.complaint) output.say(`  the customer: ${told}`);
      return;
    case 'setup':
      output.result(paragraph(showSetUp(session.circuit, run.case.now)));
      return;
    case 'list':
      for (const one of showList(session.circuit, run.recorded)) output.result(one);
      return;
    case 'help':
      for (const one of [...HOW_TO.map((words) => paragraph(words, '', '  ')), ...showHelp()])
        output.result(one);
      return;
    case 'suspects':
    case 'next':
    case 'why': {
      const needs = {
        suspects: ['suspects', 'suggestions', 'all'],
        next: ['suggestions', 'all'],
        why: ['all'],
      };
      const { query } = line;
      if (needs[query].includes(help))
        return answerQuery({ kind: 'query', query, about: line.about }, session, output);
      return slip(
        { message: 'This exercise gives no such help', mend: 'Type hint for a hint, where there are any.' },
        asker,
        output,
      );
    }
    default:
      return slip(
        { message: `There is no ${line.query} in an exercise`, mend: INSTEAD[line.query] ?? 'After done.' },
        asker,
        output,
      );
  }
}

async function hint(talk: ExerciseTalk): Promise<void> {
  const { run, asker, output } = talk;
  const used = run.recorded.filter(({ event }) => event.type === 'hinted').length;
  // What was paid for is heard as often as one likes, also after a pause.
  for (const { text } of run.exercise.hints.slice(0, used)) output.say(paragraph(text, '  '));
  const next = run.exercise.hints[used];
  if (next === undefined)
    return output.say(used === 0 ? 'There are no hints in this exercise.' : 'There are no more hints.');
  if (asker.person) {
    const price = [`${next.minutes} min`, ...(next.money > 0 ? [`${next.money} in money`] : [])].join(
      ' and ',
    );
    const answered = await asker.ask(`Hint ${used + 1} costs ${price}. Hear it? (yes, Enter = no)`);
    if (answered === undefined || !/^y/i.test(answered)) return;
  }
  await carryOut(talk, [{ type: 'hinted', number: used + 1 }]);
  output.say(paragraph(next.text, '  '), 'strong');
}

/** A person may try again; a script must not go on as if the line had been recorded. */
function slip(
  { message, mend }: { readonly message: string; readonly mend: string },
  asker: Asker,
  output: Output,
): void {
  if (!asker.person) throw new Failure(message, mend);
  output.complain(message, mend);
}
