/** `practice CIRCUIT`: exercises without end, each with its marks, the student's road and the planner's beside it. */
import { judgeChoices } from '../../exercise/choices.js';
import { DIFFICULTIES } from '../../exercise/draw-exercise.js';
import { mixed } from '../../exercise/event-draw.js';
import { markOf } from '../../exercise/mark.js';
import { planned } from '../../exercise/planner-road.js';
import { Run } from '../../exercise/run.js';
import { roadLines, unprovedLines } from '../../report/mark-road.js';
import { markLines } from '../../report/mark-sheet.js';
import { beginAttempt, resumeAttempt, type Attempt } from '../attempt.js';
import type { CommandResult, Context } from '../context.js';
import { findCircuit } from '../find-circuit.js';
import { difficultyOf, drawnExercise, seedOf } from '../find-exercise.js';
import { STATUS } from '../io.js';
import type { AtWork, SessionFlags } from '../open-session.js';
import type { Asker } from '../talk/asker.js';
import { exerciseTalk, introduce } from '../talk/exercise-talk.js';
import { askerFor, type LineFlags, type MakeAsker } from '../talk/asker-for.js';
import { pause, untilEnd } from '../talk/until-end.js';

export interface PracticeFlags extends SessionFlags, LineFlags {
  readonly difficulty?: string;
  readonly seed?: string;
  readonly student?: string;
}

export async function practice(
  context: Context,
  name: string,
  flags: PracticeFlags,
  makeAsker?: MakeAsker,
): CommandResult {
  const { io, output } = context;
  const difficulty = difficultyOf(flags.difficulty);
  const found = await findCircuit(context, name);
  const asker = await (makeAsker ?? askerFor(flags))(context);
  let seed = flags.seed === undefined ? mixed(io.now().getTime() >>> 0, 0) % 100_000 : seedOf(flags.seed);
  for (let first = true; ; first = false) {
    const drawn = await drawnExercise(found, seed, difficulty);
    output.say(`Difficulty ${difficulty} of ${DIFFICULTIES.length}, seed ${seed}`, 'faint');
    const attempt = await beginAttempt(
      context,
      drawn,
      first ? flags : ({ ...flags, session: undefined } as PracticeFlags),
    );
    const status = await attend(context, attempt, asker);
    if (status !== 'closed') return status;
    if (!asker.person) return STATUS.ok;
    const again = await asker.ask('Another one? (Enter = yes, no)');
    if (again === undefined || /^n/i.test(again)) return STATUS.ok;
    seed += 1;
  }
}

/** Goes on with a drawn attempt after a pause or a crash. */
export async function resumePractice(context: Context, at: AtWork, asker: Asker): CommandResult {
  try {
    const status = await attend(context, await resumeAttempt(context, at), asker);
    return status === 'closed' ? STATUS.ok : status;
  } finally {
    await at.session.close();
  }
}

function attend(
  context: Context,
  attempt: Attempt,
  asker: Asker,
): Promise<'closed' | Awaited<CommandResult>> {
  const { run, session } = attempt;
  const talk = { run, session, asker, output: context.output };
  return untilEnd(context, attempt, asker, async () => {
    introduce(talk);
    if ((await exerciseTalk(talk)) === 'paused') {
      await pause(context, attempt);
      return STATUS.ok;
    }
    await afterwards(context, run);
    return 'closed' as const;
  });
}

/** The marks, the student's road with the best step beside each, the planner's road on the same vehicle. */
async function afterwards({ output }: Context, run: Run): Promise<void> {
  const { bench, exercise } = run;
  output.say('Working out the best road; on a large circuit this may take a minute.', 'faint');
  const other = await Run.begin(bench, exercise);
  const par = await planned(other);
  const mark = markOf(run, par);
  const best = judgeChoices(bench, other.recorded, other.complained, other.insight);
  for (const line of [
    'MARKS',
    ...markLines(mark),
    '',
    ...roadLines('YOUR ROAD', mark.choices),
    ...unprovedLines(mark.losses),
    '',
    ...roadLines(`THE PLANNER'S ROAD (${mark.par.minutes} min, ${par.tests} tests)`, best),
  ])
    output.result(line);
}
