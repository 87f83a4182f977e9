/** `redraw [WORDS]`: records that the circuit file was corrected. */
import type { CommandResult, Context } from '../context.js';
import { STATUS } from '../io.js';
import { openSession, type SessionFlags } from '../open-session.js';
import { redraw as correct } from '../redraw.js';

export async function redraw(
  context: Context,
  words: readonly string[],
  flags: SessionFlags & { readonly json?: boolean },
): CommandResult {
  const { session, file } = await openSession(context, flags);
  try {
    const recorded = await correct(context, session, words.join(' '), flags.circuit);
    if (flags.json) context.output.json('record', { file, hash: session.hash, recorded });
    else for (const { number } of recorded) context.output.result(`${number} drawing corrected`);
    return STATUS.ok;
  } finally {
    await session.close();
  }
}
