/** The first questions: the concern, the vehicle, its history, then what fails and what works, and in which condition. */
import type { Circuit } from '../../circuit/circuit.js';
import { loadsOf } from '../../circuit/circuit.js';
import { describeLoad } from '../../session/describe.js';
import { parseLine, type Line } from '../../session/parse-line.js';
import type { Output } from '../output.js';
import type { Session } from '../session.js';
import { paragraph } from '../show/page.js';
import { answerQuery } from './answer.js';
import type { Asker } from './asker.js';
import { carryOut, type Confirm } from './carry-out.js';

const CONCERN = [
  ['complaint', 'What does the customer complain of?'],
  ['vehicle', 'Vehicle?'],
  ['history', 'History: recent work, tow bar, water, collision; sudden or gradual?'],
] as const;

/**
 * Each question can be passed over with Enter. Who answers the first ones with a line of the grammar wants to be asked no more:
 * that line is given back, to be understood like any other at the prompt.
 */
export async function opening(
  session: Session,
  asker: Asker,
  output: Output,
  confirm: Confirm,
): Promise<string | undefined> {
  const { circuit } = session;
  output.say(circuit.title, 'strong');
  if (circuit.about !== '') output.say(paragraph(circuit.about));
  output.say(paragraph("Follow the vehicle maker's procedure; this program sees only the drawing."));
  output.say('Every question can be passed over with Enter.', 'faint');
  for (const [field, question] of CONCERN) {
    const answer = await asker.ask(question);
    if (!answer) continue;
    const { kind } = parseLine(answer, circuit, session.recorded);
    if (kind === 'events' || kind === 'query') return answer;
    await session.record([
      { type: 'concern', concern: field === 'history' ? { history: [answer] } : { [field]: answer } },
    ]);
  }
  output.say(paragraph(loadNames(circuit), 'Loads: '));
  output.say(paragraph(controlNames(circuit), 'Controls: '));
  await each('fails', 'What fails?', session, asker, output, confirm);
  await each('works', 'What works?', session, asker, output, confirm);
  return undefined;
}

async function each(
  verb: 'fails' | 'works',
  question: string,
  session: Session,
  asker: Asker,
  output: Output,
  confirm: Confirm,
): Promise<void> {
  for (let asked = question; ;) {
    const answer = await asker.ask(`${asked} (like H1 H2 when CONTROL POSITION)`);
    if (!answer) return;
    const line = await understood(verb, answer, session, asker);
    if (line.kind === 'events') {
      await carryOut(session, line.events, line.echo, output, confirm);
      asked = `What else ${verb}?`;
    } else if (line.kind === 'error') output.complain(line.message, line.mend);
    else if (line.kind === 'query') answerQuery(line, session, output);
  }
}

/** Loads, as asked; but a whole line of the grammar (undo, note, H1 dim ...) is one here as well. */
async function understood(verb: string, answer: string, session: Session, asker: Asker): Promise<Line> {
  const { circuit, recorded } = session;
  const plain = parseLine(answer, circuit, recorded);
  if (plain.kind !== 'error' && !answer.toLowerCase().startsWith(`${verb} `)) return plain;
  const text = answer.toLowerCase().startsWith(`${verb} `) ? answer : `${verb} ${answer}`;
  const line = parseLine(text, circuit, recorded);
  // The condition is asked only of an answer that makes sense without it.
  if (line.kind !== 'events' || /\swhen\s/i.test(text) || circuit.controls.size === 0) return line;
  const when = await asker.ask('In which condition? (CONTROL POSITION, Enter = everything at rest)');
  return when ? parseLine(`${text} when ${when}`, circuit, recorded) : line;
}

function loadNames(circuit: Circuit): string {
  return [...circuit.parts.values()]
    .flatMap((part) => loadsOf(part))
    .map((load) => describeLoad(circuit, load))
    .join(', ');
}

function controlNames(circuit: Circuit): string {
  return [...circuit.controls.values()]
    .map((control) => `${control.id} (${control.positions.join(', ')})`)
    .concat('engine (off, running)')
    .join(', ');
}
