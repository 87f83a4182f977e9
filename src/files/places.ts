/** Where sessions are kept when no file is named: the folder each platform means for a program's own lasting records. */
import { readdir } from 'node:fs/promises';
import { posix, win32 } from 'node:path';
import { systemCode } from './journal-error.js';

/** The ending of journal files. */
export const JOURNAL_ENDING = '.journal';

export interface Surroundings {
  /** As in `process.platform`. */
  readonly platform: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** The user's home folder. */
  readonly home: string;
}

/**
 * The default folder. Linux and the like: XDG Base Directory Specification 0.8, `$XDG_STATE_HOME` (only when absolute),
 * else `~/.local/state`. macOS: Application Support. Windows: `%LOCALAPPDATA%`.
 */
export function sessionFolder({ platform, env, home }: Surroundings): string {
  if (platform === 'win32') {
    const local = env['LOCALAPPDATA'];
    return win32.join(
      local && win32.isAbsolute(local) ? local : win32.join(home, 'AppData', 'Local'),
      'knowngood',
    );
  }
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'knowngood');
  const state = env['XDG_STATE_HOME'];
  return posix.join(
    state && posix.isAbsolute(state) ? state : posix.join(home, '.local', 'state'),
    'knowngood',
  );
}

/** A file for a new session: folder, the time without signs that some systems refuse, and the circuit's id. */
export function newSessionFile(surroundings: Surroundings, circuitId: string, at: string): string {
  const { join } = surroundings.platform === 'win32' ? win32 : posix;
  const time = at
    .replace(/\.\d+/, '')
    .replace(/[^0-9TZ+-]/g, '')
    .replace(/[+]/g, 'p');
  const circuit = circuitId.replace(/[^\p{L}\p{N}_-]/gu, '-').slice(0, 40);
  return join(sessionFolder(surroundings), `${time}-${circuit}${JOURNAL_ENDING}`);
}

/** Full paths of the journals in a folder, by name (so, with our own names, by time). No folder = none. */
export async function listSessions(
  folder: string,
  platform: string = process.platform,
): Promise<readonly string[]> {
  const { join } = platform === 'win32' ? win32 : posix;
  try {
    return (await readdir(folder, { withFileTypes: true }))
      .filter((entry) => entry.isFile() && entry.name.endsWith(JOURNAL_ENDING))
      .map((entry) => join(folder, entry.name))
      .sort();
  } catch (error) {
    if (systemCode(error) === 'ENOENT' || systemCode(error) === 'ENOTDIR') return [];
    throw error;
  }
}
