/** `replay FILE...`: sessions as tests. 0 all hold, 1 something differs, 2 something could not be run. */
import { resolve } from 'node:path';
import { JournalError } from '../../files/journal.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import { replaySession } from '../replay-session.js';

interface Outcome {
  readonly file: string;
  readonly title: string;
  readonly outcome: 'holds' | 'differs' | 'could not run';
  readonly lines: readonly string[];
}

export async function replay(
  context: Context,
  files: readonly string[],
  { json = false }: { json?: boolean },
): CommandResult {
  const { output } = context;
  const outcomes: Outcome[] = [];
  for (const file of files) {
    const one = await outcomeOf(context, file);
    outcomes.push(one);
    if (json) continue;
    output.result(
      `${one.outcome.padEnd(13)} ${file}${one.title === file ? '' : `  ${one.title}`}`,
      one.outcome === 'holds' ? 'good' : 'error',
    );
    for (const line of one.lines) output.result(`    ${line.replaceAll('\n', '\n    ')}`);
  }
  const count = (wanted: Outcome['outcome']): number =>
    outcomes.filter((one) => one.outcome === wanted).length;
  const totals = { holds: count('holds'), differs: count('differs'), failed: count('could not run') };
  if (json) output.json('replay', { ...totals, sessions: outcomes });
  else output.result(`${totals.holds} hold, ${totals.differs} differ, ${totals.failed} could not run`);
  return totals.failed > 0 ? STATUS.cannotRun : totals.differs > 0 ? STATUS.negative : STATUS.ok;
}

async function outcomeOf(context: Context, file: string): Promise<Outcome> {
  try {
    const { title, differs } = await replaySession(context, resolve(context.io.cwd, file), file);
    return { file, title, outcome: differs.length === 0 ? 'holds' : 'differs', lines: differs };
  } catch (error) {
    if (!(error instanceof Failure || error instanceof JournalError)) throw error;
    const lines = [error.message, error.mend].filter((line) => line !== '');
    return { file, title: file, outcome: 'could not run', lines };
  }
}
