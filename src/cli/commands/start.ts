/** `start CIRCUIT` and `resume`: the conversation, with a person at a terminal or with lines from a file or pipe. */
import { begunIn } from '../attempt.js';
import type { CommandResult, Context } from '../context.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';
import { beginSession, openSession, type AtWork, type SessionFlags } from '../open-session.js';
import { redraw } from '../redraw.js';
import { askerFor, type LineFlags, type MakeAsker } from '../talk/asker-for.js';
import type { Asker } from '../talk/asker.js';
import { opening } from '../talk/opening.js';
import { confirmBy, talk } from '../talk/talk.js';
import { pause, untilEnd } from '../talk/until-end.js';

export type TalkFlags = SessionFlags & LineFlags;

export async function start(
  context: Context,
  circuit: string,
  flags: TalkFlags,
  makeAsker?: MakeAsker,
): CommandResult {
  const found = await findCircuit(context, circuit);
  const asker = await (makeAsker ?? askerFor(flags))(context);
  return converse(context, await beginSession(context, found, flags), asker, true, {});
}

export async function resume(
  context: Context,
  flags: TalkFlags & { readonly exercise?: string },
  makeAsker?: MakeAsker,
): CommandResult {
  const asker = await (makeAsker ?? askerFor(flags))(context);
  const at = await openSession(context, flags, true);
  const begun = begunIn(at.session.recorded);
  if (begun === undefined || at.session.case.closed) return converse(context, at, asker, false, flags);
  if (begun.drawn !== undefined) return (await import('./practice.js')).resumePractice(context, at, asker);
  return (await import('./exercise.js')).resumeExercise(context, at, asker, flags);
}

async function converse(
  context: Context,
  { session, file }: AtWork,
  asker: Asker,
  fresh: boolean,
  flags: SessionFlags,
): CommandResult {
  const { output } = context;
  return untilEnd(context, { session, file }, asker, async () => {
    output.say(`Session: ${file}`, 'faint');
    const first = fresh && asker.person ? await opening(session, asker, output, confirmBy(asker)) : undefined;
    const corrected = (words: string) => redraw(context, session, words, flags.circuit);
    const end = await talk(session, asker, output, corrected, first);
    if (end === 'paused') await pause(context, { session, file });
    return STATUS.ok;
  });
}
