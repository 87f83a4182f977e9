/** From the cause to the end: the repair, everything put back, the failed condition repeated, the report. */
import { describeLoad } from '../../session/describe.js';
import { parseLine } from '../../session/parse-line.js';
import { KNOWN_GOOD, type SetUp } from '../../session/setup.js';
import type { Event } from '../../session/events.js';
import { isRepair, proveRepair } from '../../diagnosis/proof-of-repair.js';
import type { Output } from '../output.js';
import type { Session } from '../session.js';
import { setUpMark } from '../show/record.js';
import { showSuspects } from '../show/suspects.js';
import { answerQuery } from './answer.js';
import type { Asker } from './asker.js';
import { goBack } from './weak-links.js';
import { carryOut, type Confirm } from './carry-out.js';
import { isRepeat, repeatedLine } from './repeat.js';

export interface Closing {
  readonly session: Session;
  readonly asker: Asker;
  readonly output: Output;
  readonly confirm: Confirm;
}

/** True when the session was closed. */
export async function closing(talk: Closing): Promise<boolean> {
  const { session, asker, output } = talk;
  if (!isRepaired(session) && !(await askRepair(talk))) return false;
  await putBack(talk);
  await repeatFailed(talk);
  if (failsStill(session)) {
    output.say(
      'The complaint is still there: the repair did not cure it, or there is a second fault. Testing goes on.',
      'warning',
    );
    return false;
  }
  const { verified } = session.diagnosis;
  output.say(
    verified ? 'Verified: the failed condition was repeated and is good.' : 'Not verified: see the report.',
    verified ? 'good' : 'warning',
  );
  if (!verified && (await goBack(session, asker, output))) return false;
  const answer = await asker.ask(
    verified
      ? 'Close the session and print the report? (Enter = yes, no)'
      : 'Close it all the same? (yes, Enter = no)',
  );
  if (answer === undefined || (verified ? /^n/i.test(answer) : !/^y/i.test(answer))) return false;
  await session.record([{ type: 'closed' }]);
  return true;
}

function failsStill(session: Session): boolean {
  return proveRepair(session.case.timeline, abnormalOf(session)).conditions.some(
    ({ again }) => again === 'bad',
  );
}

/** Something was mended after the complaint was last seen. */
function isRepaired(session: Session): boolean {
  const bad = abnormalOf(session);
  const { timeline } = session.case;
  const lastBad = timeline.findLastIndex((step) => step.kind === 'finding' && bad.has(step.finding.number));
  return timeline.some((step, index) => index > lastBad && step.kind === 'action' && isRepair(step.action));
}

function abnormalOf({ diagnosis }: Session): ReadonlySet<number> {
  return new Set(diagnosis.findings.filter((one) => one.abnormal).map((one) => one.number));
}

async function askRepair({ session, asker, output, confirm }: Closing): Promise<boolean> {
  const top = session.diagnosis.groups[0];
  for (const line of showSuspects(session.diagnosis, 3)) output.say(line);
  const suggested = top === undefined ? '' : `, Enter = ${top.repair.how}`;
  for (;;) {
    const answer = await asker.ask(
      `What was repaired? (like new F7, clean GP2, repair X3 new pin 15 min${suggested}; no = go on testing)`,
    );
    if (answer === undefined || /^no?$/i.test(answer)) return false;
    const fault = top?.suspects[0]?.faults[0];
    if (answer === '' && fault === undefined) return false;
    const text =
      answer === ''
        ? `repair ${fault!.part} ${top!.repair.how} ${Math.round(top!.repair.minutes)} min`
        : answer;
    const plain = parseLine(text, session.circuit, session.recorded);
    const line =
      plain.kind === 'error' && fault !== undefined
        ? parseLine(`repair ${fault.part} ${text}`, session.circuit, session.recorded)
        : plain;
    if (line.kind === 'events') {
      await carryOut(session, line.events, line.echo, output, confirm);
      if (isRepaired(session)) return true;
    } else if (line.kind === 'query') answerQuery(line, session, output);
    else if (line.kind === 'error') output.complain(line.message, line.mend);
  }
}

async function putBack({ session, asker, output, confirm }: Closing): Promise<void> {
  const lines = linesToPutBack(session.case.now);
  if (lines.length === 0) return;
  const answer = await asker.ask(`Put everything back: ${lines.join(', ')}. Enter when it is done`);
  if (answer === undefined || /^no?$/i.test(answer)) return;
  for (const text of lines) {
    const line = parseLine(text, session.circuit, session.recorded);
    if (line.kind === 'events') await carryOut(session, line.events, line.echo, output, confirm);
  }
}

/** Lines that bring the vehicle back to what it was: every own item in its place, everything plugged. */
function linesToPutBack({ unplugged, out, jumpers, lamps, fitted }: SetUp): readonly string[] {
  const swapped = [...fitted].filter(([place, item]) => item !== KNOWN_GOOD && place < item);
  const foreign = [...fitted].filter(([place, item]) => item === KNOWN_GOOD && !out.has(place));
  return [
    ...[...lamps].map((id) => `unlamp ${id}`),
    ...swapped.map(([place, item]) => `swap ${place} ${item}`),
    ...[...out, ...foreign.map(([place]) => place)].map((id) => `in ${id}`),
    ...[...unplugged].map((id) => `plug ${id}`),
    ...jumpers.map((ends) => `unjumper ${ends.join(' ')}`),
  ];
}

/** Each load that failed, in the condition in which it failed. */
async function repeatFailed(talk: Closing): Promise<void> {
  const { session, asker, output, confirm } = talk;
  const { circuit } = session;
  const { conditions } = proveRepair(session.case.timeline, abnormalOf(session));
  if (conditions.length === 0)
    output.say('No failed condition is recorded that could be repeated.', 'warning');
  // What was repeated before anybody asked is not asked again.
  const failed = conditions.filter(({ again }) => again !== 'good');
  const told: Event[] = [];
  for (const { load, finding } of failed) {
    const mark = setUpMark(circuit, finding.setUp);
    while (!told.some((event) => isRepeat(event, load, finding))) {
      const answer = await asker.ask(
        `Repeat the failed condition (${mark}): what does ${describeLoad(circuit, load)} do?`,
      );
      if (!answer) break;
      const line = repeatedLine(answer, load, finding, session);
      if (line.kind === 'error') output.complain(line.message, line.mend);
      else if (line.kind === 'query') answerQuery(line, session, output);
      else if (line.kind === 'events') {
        const recorded = await carryOut(session, line.events, line.echo, output, confirm);
        told.push(...recorded.map(({ event }) => event));
      }
    }
  }
}
