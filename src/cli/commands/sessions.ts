/** `sessions`: what is in the default folder. */
import { JournalError, readJournal } from '../../files/journal.js';
import { listSessions, sessionFolder } from '../../files/places.js';
import type { Event, Recorded } from '../../session/events.js';
import type { CommandResult, Context } from '../context.js';
import { STATUS } from '../io.js';
import { surroundings } from '../open-session.js';

export async function sessions(context: Context, { json = false }: { json?: boolean }): CommandResult {
  const { io, output } = context;
  const folder = sessionFolder(surroundings(context));
  const list = await Promise.all((await listSessions(folder, io.platform)).map(summaryOf));
  if (json) output.json('sessions', { folder, sessions: list });
  else if (list.length === 0) output.say(`No sessions in ${folder}`);
  else
    for (const one of list)
      output.result(
        'problem' in one
          ? `${one.file}\n    ${one.problem}`
          : `${one.file}\n    ${one.circuit}, ${one.events} events, ${one.state}, last ${one.last}${one.complaint === '' ? '' : `: ${one.complaint}`}`,
      );
  return STATUS.ok;
}

async function summaryOf(file: string): Promise<
  | { file: string; problem: string }
  | {
      file: string;
      circuit: string;
      complaint: string;
      events: number;
      state: 'open' | 'closed';
      last: string;
    }
> {
  try {
    const { recorded } = await readJournal(file);
    const last = <T extends Event['type']>(type: T): Extract<Event, { type: T }> | undefined =>
      recorded.findLast(({ event }) => event.type === type)?.event as Extract<Event, { type: T }> | undefined;
    const complaints = recorded.flatMap(({ event }) =>
      event.type === 'concern' && event.concern.complaint !== undefined ? [event.concern.complaint] : [],
    );
    return {
      file,
      circuit: last('opened')?.circuit.id ?? 'no circuit',
      complaint: complaints.at(-1) ?? '',
      events: recorded.length,
      state: lastOf(recorded)?.event.type === 'closed' ? 'closed' : 'open',
      last: lastOf(recorded)?.at ?? '',
    };
  } catch (error) {
    // One damaged file must not hide the others.
    if (error instanceof JournalError) return { file, problem: `${error.message}; ${error.mend}` };
    throw error;
  }
}

function lastOf(recorded: readonly Recorded[]): Recorded | undefined {
  return recorded.findLast(({ event }) => event.type !== 'noted' && event.type !== 'paused');
}
