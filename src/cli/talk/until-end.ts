/** A conversation to its end: whatever stops it, what was recorded is kept, the journal let go, and how to go on is said. */
import type { Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import type { AtWork } from '../open-session.js';
import { Interrupted, type Asker } from './asker.js';

/** @returns what `work` returns, or the status of an interruption */
export async function untilEnd<T>(
  { output }: Context,
  { session, file }: AtWork,
  asker: Asker,
  work: () => Promise<T>,
): Promise<T | typeof STATUS.interrupted> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof Interrupted) {
      output.say(`\nInterrupted. ${howToResume(file)}`, 'strong');
      return STATUS.interrupted;
    }
    if (error instanceof Failure && !asker.person)
      throw new Failure(
        `${'line' in asker ? `line ${String(asker.line)}: ` : ''}${error.message}`,
        `${error.mend}\nThe lines before it are recorded in ${file}`.trim(),
        error.status,
        { cause: error },
      );
    throw error;
  } finally {
    await session.close();
  }
}

/** Records the pause, with what is concluded at it unless it is an exercise, and says how to go on. */
export async function pause({ output }: Context, { session, file }: AtWork): Promise<void> {
  await session.record([{ type: 'paused' }], { judged: true });
  output.say(`Paused. ${howToResume(file)}`);
}

function howToResume(file: string): string {
  return `It is safe in ${file}\nTo go on: knowngood resume --session "${file}"`;
}
