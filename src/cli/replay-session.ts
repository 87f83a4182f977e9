/** Re-reasons one recorded or hand-written session and compares what comes out with what was recorded or is expected. */
import { JournalError } from '../files/journal.js';
import type { Replay } from '../report/replay-data.js';
import { Failure } from './failure.js';
import { Benches } from './replay/benches.js';
import { replayJournal } from './replay/replay-journal.js';
import type { Replayed, ReplayOptions } from './replay/replayed.js';
import { replayScript } from './replay/replay-script.js';

/** Throws Failure or JournalError where the session cannot be run at all. */
export async function replaySession(
  options: ReplayOptions,
  path: string,
  shown = path,
  benches = new Benches(),
): Promise<Replayed> {
  return /\.ya?ml$/i.test(path)
    ? replayScript(path, shown, options, benches)
    : replayJournal(path, shown, options, benches);
}

/** The same as data, whatever becomes of it. Throws only for a mistake in the program. */
export async function replayFile(
  options: ReplayOptions,
  path: string,
  shown: string,
  benches: Benches,
): Promise<Replay> {
  try {
    const { title, circuit, differs, reasons, notes, accept } = await replaySession(
      options,
      path,
      shown,
      benches,
    );
    const base = { file: shown, title, circuit, accepted: [] };
    if (options.update !== undefined && accept !== undefined)
      return {
        ...base,
        outcome: 'holds',
        lines: [],
        reasons: [],
        notes: [],
        accepted: await accept(options.update),
      };
    if (differs.length === 0 && notes.length > 0 && options.strict === true)
      return { ...base, outcome: 'differs', lines: notes, reasons, notes: [] };
    return { ...base, outcome: differs.length === 0 ? 'holds' : 'differs', lines: differs, reasons, notes };
  } catch (error) {
    if (!(error instanceof Failure || error instanceof JournalError)) throw error;
    // The name as it was given: the same on every machine, as the rest is.
    const lines = [error.message, error.mend]
      .filter((line) => line !== '')
      .map((line) => line.replaceAll(path, shown));
    return { ...FAILED, file: shown, title: shown, lines };
  }
}

/** A session that could not be run, for a reason that has still to be named. */
export const FAILED: Replay = {
  file: '',
  title: '',
  circuit: '',
  outcome: 'could not run',
  lines: [],
  reasons: [],
  notes: [],
  accepted: [],
};
