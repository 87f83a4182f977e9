/** How a session is to be reasoned again, and what came out. */
import type { Session } from '../session.js';

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
