/** The drawing is corrected in mid-session: the circuit file is read again, the findings stay and are judged by the new one. */
import type { Recorded } from '../session/events.js';
import type { Context } from './context.js';
import { Failure } from './failure.js';
import { findCircuit } from './find-circuit.js';
import { misfits } from './misfits.js';
import type { Session } from './session.js';
import { showConsequences } from './show/consequences.js';

/** Misfits named before the rest is only counted. */
const MOST = 5;

/**
 * Records the corrected drawing and says what it changes. Throws Failure, with nothing recorded, where the file cannot be used,
 * is the one already recorded, or lacks something that the record speaks of.
 * @param file another circuit file; left out = the one of the session
 */
export async function redraw(
  context: Context,
  session: Session,
  words: string,
  file?: string,
): Promise<readonly Recorded[]> {
  const { output } = context;
  const known = session.case.circuit;
  const found = await findCircuit(context, file ?? known.file);
  if (found.circuit.id !== known.id)
    throw new Failure(
      `${found.file} is the circuit ${found.circuit.id}; the session is about ${known.id}`,
      'Correct the file of this circuit, or name the right one with --circuit FILE.',
    );
  if (found.hash === known.hash)
    throw new Failure(
      `${found.file} is the same as before`,
      'Correct the drawing in that file and save it; then: redraw and a few words on what was wrong.',
    );
  const wrong = misfits(found.circuit, session.recorded);
  if (wrong.length > 0)
    throw new Failure(
      [
        'The corrected drawing does not fit the record:',
        ...wrong.slice(0, MOST).map((one) => `  ${one}`),
        ...(wrong.length > MOST ? [`  and ${wrong.length - MOST} more`] : []),
      ].join('\n'),
      'Keep those names in the file, or take the events back first (undo NUMBER). Nothing was recorded.',
    );
  const before = session.diagnosis;
  const recorded = await session.redraw(found, words);
  for (const { number } of recorded)
    output.say(`#${number} recorded: drawing corrected${words === '' ? '' : `: ${words}`}`, 'good');
  for (const line of showConsequences(before, session.diagnosis, [])) output.say(line);
  return recorded;
}
