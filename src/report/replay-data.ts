/** What became of each replayed session, as data: every form prints exactly this. */

export type Outcome = 'holds' | 'differs' | 'could not run';

export interface Replay {
  /** As named, or as found in a named folder. */
  readonly file: string;
  /** Title of a session written by hand; else the file. */
  readonly title: string;
  /** Id of the circuit; empty where the session could not be read. */
  readonly circuit: string;
  readonly outcome: Outcome;
  /** One line for everything that is not as expected or recorded; why it could not be run. */
  readonly lines: readonly string[];
  /** Where they come from: which finding drops or keeps which suspect now, which values of the drawing were changed. */
  readonly reasons: readonly string[];
  /** What does not make it differ but has to be known. */
  readonly notes: readonly string[];
  /** What `--update` took over. */
  readonly accepted: readonly string[];
}

export interface Totals {
  readonly holds: number;
  readonly differs: number;
  readonly failed: number;
}

export function totalsOf(replays: readonly Pick<Replay, 'outcome'>[]): Totals {
  const count = (wanted: Outcome): number => replays.filter(({ outcome }) => outcome === wanted).length;
  return { holds: count('holds'), differs: count('differs'), failed: count('could not run') };
}
