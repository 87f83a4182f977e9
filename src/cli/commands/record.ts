/** `new`, `record` and `undo`: a session one command at a time, for scripts. */
import type { Event, Recorded } from '../../session/events.js';
import { nextNumber } from '../../session/decide.js';
import { parseLine } from '../../session/parse-line.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';
import { beginSession, openSession, type SessionFlags } from '../open-session.js';
import { closes, sayWeakLinks } from '../talk/weak-links.js';
import { carryOut } from '../talk/carry-out.js';

export interface RecordFlags extends SessionFlags {
  readonly json?: boolean;
  /** The cautions that ask for a typed yes are known and heeded. */
  readonly yes?: boolean;
}

export async function begin(context: Context, circuit: string, flags: RecordFlags): CommandResult {
  const { output } = context;
  const { session, file } = await beginSession(context, await findCircuit(context, circuit), flags);
  await session.close();
  if (flags.json) output.json('session', { file, circuit: session.circuit.id, hash: session.hash });
  else output.result(file);
  return STATUS.ok;
}

/** All lines or none: a script that is stopped by a mistake must not leave half of them behind. */
export async function record(context: Context, lines: readonly string[], flags: RecordFlags): CommandResult {
  const { output } = context;
  const { session, file } = await openSession(context, flags);
  try {
    const events: Event[] = [];
    const echo: string[] = [];
    const soFar: Recorded[] = [...session.recorded];
    lines.forEach((text, index) => {
      const line = parseLine(text, session.circuit, soFar);
      const where = lines.length > 1 ? `line ${index + 1}: ` : '';
      if (line.kind === 'error')
        throw new Failure(
          `${where}${line.message}\n  ${text}\n  ${' '.repeat(line.at)}^`,
          `${line.mend} Nothing was recorded.`,
        );
      if (line.kind === 'query')
        throw new Failure(
          `${where}"${text}" asks; it records nothing`,
          `Use the command: knowngood ${line.query}.`,
        );
      if (line.kind === 'empty') return;
      for (const event of line.events) soFar.push({ number: nextNumber(soFar), at: '', event });
      events.push(...line.events);
      echo.push(...line.echo);
    });
    if (events.length === 0)
      throw new Failure('there is no line to record', 'Give one or more: record "volts X3.1h 11.4".');
    // Beside other lines the state before them says little.
    if (events.length === 1 && closes(events)) sayWeakLinks(session, output);
    const recorded = await carryOut(session, events, echo, output, () => Promise.resolve(flags.yes === true));
    if (recorded.length === 0)
      throw new Failure(
        'a caution stopped this step',
        'Where it only warns, and you heed it: add --yes. Ohms from a live line prove nothing even then.',
      );
    if (flags.json)
      output.json('record', {
        file,
        hash: session.hash,
        recorded: recorded.map((one, index) => ({ ...one, words: echo[index] })),
      });
    else recorded.forEach(({ number }, index) => output.result(`${number} ${echo[index]}`));
    return STATUS.ok;
  } finally {
    await session.close();
  }
}

export function undo(context: Context, number: string | undefined, flags: RecordFlags): CommandResult {
  return record(context, [number === undefined ? 'undo' : `undo ${number}`], flags);
}
