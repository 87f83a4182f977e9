/** `exercise start`, `exercise seal` and `exercise open`: the student's and the instructor's side of an exercise file. */
import { resolve } from 'node:path';
import { writeNewFile } from '../../files/new-file.js';
import { openedText, sealedText } from '../../files/sealed-file.js';
import { beginAttempt, resumeAttempt, type Attempt } from '../attempt.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findExercise, proveExercise } from '../find-exercise.js';
import { STATUS } from '../io.js';
import type { AtWork, SessionFlags } from '../open-session.js';
import type { Asker } from '../talk/asker.js';
import { exerciseTalk, introduce } from '../talk/exercise-talk.js';
import { paragraph } from '../show/page.js';
import { askerFor, type LineFlags, type MakeAsker } from '../talk/asker-for.js';
import { pause, untilEnd } from '../talk/until-end.js';

export interface ExerciseFlags extends SessionFlags, LineFlags {
  readonly student?: string;
  /** Where to write; left out = the result. */
  readonly out?: string;
  readonly key?: string;
  readonly exercise?: string;
}

/** Shortest key phrase taken: shorter ones are found by trying. */
const SHORTEST_PHRASE = 8;

export async function startExercise(
  context: Context,
  name: string,
  flags: ExerciseFlags,
  makeAsker?: MakeAsker,
): CommandResult {
  const found = await findExercise(context, name);
  const asker = await (makeAsker ?? askerFor(flags))(context);
  return converse(context, await beginAttempt(context, found, flags), asker, true);
}

/** Goes on with an attempt; the session is open already. */
export async function resumeExercise(
  context: Context,
  at: AtWork,
  asker: Asker,
  flags: Pick<ExerciseFlags, 'exercise'> = {},
): CommandResult {
  try {
    return await converse(context, await resumeAttempt(context, at, flags.exercise), asker, false);
  } finally {
    await at.session.close();
  }
}

async function converse(context: Context, attempt: Attempt, asker: Asker, fresh: boolean): CommandResult {
  const { output } = context;
  const { run, session, file } = attempt;
  const talk = { run, session, asker, output };
  return untilEnd(context, attempt, asker, async () => {
    output.say(`Attempt: ${file}`, 'faint');
    introduce(talk);
    if (!fresh) output.say(`${run.recorded.length} events so far; type list to see them.`);
    if ((await exerciseTalk(talk)) === 'paused') {
      await pause(context, attempt);
      return STATUS.ok;
    }
    const { minutes, money } = run.spent;
    output.say(`Closed after ${minutes.toFixed(1)} min and ${money.toFixed(2)} in money.`, 'strong');
    if (run.exercise.goal !== '') output.say(paragraph(run.exercise.goal, 'What it was about: ', '  '));
    output.say('Hand in this file:');
    output.result(file);
    return STATUS.ok;
  });
}

export async function sealExercise(context: Context, name: string, flags: ExerciseFlags): CommandResult {
  const { io, output } = context;
  const { loaded, file } = await findExercise(context, name);
  if (loaded.sealed !== undefined)
    throw new Failure(`${name} is sealed already`, 'Seal the file it was made from.');
  const key = flags.key ?? '';
  if (key.length < SHORTEST_PHRASE)
    throw new Failure(
      key === '' ? 'A seal needs a key phrase' : 'The key phrase is too short',
      `Give at least ${SHORTEST_PHRASE} characters: --key "four words of your own". Keep it: mark and open ask for it.`,
    );
  const out = flags.out === undefined ? file : resolve(io.cwd, flags.out);
  return write(context, sealedText(loaded, key, out), flags.out, () =>
    output.say(
      'Sealed against a glance. It is no safe: whoever takes the program apart can open it.',
      'faint',
    ),
  );
}

export async function openExercise(context: Context, name: string, flags: ExerciseFlags): CommandResult {
  const { loaded, file } = await proveExercise(context, name, flags.key);
  const out = flags.out === undefined ? file : resolve(context.io.cwd, flags.out);
  return write(context, openedText(loaded, out), flags.out, () => undefined);
}

async function write(
  { io, output }: Context,
  text: string,
  out: string | undefined,
  after: () => void,
): CommandResult {
  if (out === undefined) output.result(text.trimEnd());
  else {
    // An instructor's own file must not be written over by a slip.
    const written = await writeNewFile(resolve(io.cwd, out), text);
    if ('problem' in written) throw new Failure(`${out}: ${written.problem}`, written.mend);
    output.result(out);
  }
  after();
  return STATUS.ok;
}
