/** Re-reasons one recorded or hand-written session and compares what comes out with what was recorded or is expected. */
import { JournalError } from '../files/journal.js';
import type { Replay } from '../report/replay-data.js';
import { Failure } from './failure.js';
import { Benches } from './replay/benches.js';
import { replayJournal } from './replay/replay-journal.js';
import { replayScript } from './replay/replay-script.js';
import type { Session } from './session.js';

export interface ReplayOptions {
  /** Folder that names start from. */
  readonly cwd: string;
  /** Folder in which the circuits of journals are looked for first, full path. */
  readonly circuits?: string | undefined;
  /** Folder with an earlier state of the working folder, full path: its drawings tell what was changed. */
  readonly before?: string | undefined;
  /** Accept what differs, at this time (ISO 8601). */
  readonly update?: string | undefined;
  /** What would only be noted counts as a difference. */
  readonly strict?: boolean | undefined;
}

export interface Replayed {
  readonly title: string;
  readonly session: Session;
  readonly circuit: string;
  /** One line for everything that is not as expected or recorded; none = it holds. */
  readonly differs: readonly string[];
  /** Where that comes from, as far as it is known. */
  readonly reasons: readonly string[];
  /** What does not make it differ, but has to be known. */
  readonly notes: readonly string[];
  /** Takes over what comes out today, and says what it wrote; absent where there is nothing to accept. */
  readonly accept?: (at: string) => Promise<readonly string[]>;
}

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
