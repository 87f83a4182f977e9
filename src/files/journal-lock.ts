/**
 * One program at a time writes to a journal. The lock is a file beside it that names the process, the computer and the
 * time the process started, so that a lock left by a crash can be told from one in use.
 */
import { hostname } from 'node:os';
import { setTimeout as wait } from 'node:timers/promises';
import type { FileSystem } from './file-system.js';
import { JournalError, systemCode } from './journal-error.js';

export interface Owner {
  readonly pid: number;
  readonly host: string;
  /** ISO 8601, start of the process. */
  readonly started: string;
}

/** This process. */
export const OWN: Owner = {
  pid: process.pid,
  host: hostname(),
  started: new Date(Date.now() - Math.round(process.uptime() * 1000)).toISOString(),
};

export interface Lock {
  /** Removes the lock file if it is still this one. Never throws. */
  release(): Promise<void>;
}

export const lockPath = (path: string): string => `${path}.lock`;
const takeoverPath = (lock: string): string => `${lock}.takeover`;

const MOST_ATTEMPTS = 5;
/** Milliseconds until what another program is doing should be done. */
const LOOK_AGAIN = 50;

/** Takes the lock, over from a dead process of this computer if need be; throws JournalError `locked`. */
export async function takeLock(path: string, files: FileSystem, own: Owner = OWN): Promise<Lock> {
  const lock = lockPath(path);
  const text = JSON.stringify(own);
  for (let attempt = 0; ; attempt++) {
    if (await createLock(lock, text, path, files)) break;
    const found = await readOwner(lock, files);
    if (found === 'gone') continue;
    if (!isStale(found.owner, own)) throw lockedBy(found.owner, path, lock);
    if (attempt >= MOST_ATTEMPTS) throw beingTakenOver(path, lock);
    await removeStale(lock, found.text, path, files);
  }
  return {
    async release() {
      try {
        if (decode(await files.read(lock)) === text) await files.remove(lock);
      } catch {
        // Left behind, it names a process that is about to be dead: the next one takes it over.
      }
    },
  };
}

/** A lock of this computer whose process is dead, or which nobody finished writing. */
function isStale(owner: Owner | undefined, own: Owner): boolean {
  if (owner === undefined) return true;
  if (owner.host !== own.host) return false;
  // In a container the same number comes back at every start; the time tells whether it is this process.
  if (owner.pid === own.pid) return owner.started !== own.started;
  try {
    process.kill(owner.pid, 0);
    return false;
  } catch (error) {
    return systemCode(error) === 'ESRCH';
  }
}

async function createLock(lock: string, text: string, path: string, files: FileSystem): Promise<boolean> {
  let file;
  try {
    file = await files.create(lock);
  } catch (error) {
    if (systemCode(error) === 'EEXIST') return false;
    throw cannotLock(path, error);
  }
  try {
    const bytes = new TextEncoder().encode(text);
    for (let done = 0; done < bytes.length;) done += await file.write(bytes.subarray(done), done);
    await file.close();
    return true;
  } catch (error) {
    await file.close().catch(() => undefined);
    await files.remove(lock).catch(() => undefined);
    throw cannotLock(path, error);
  }
}

async function readOwner(
  lock: string,
  files: FileSystem,
): Promise<'gone' | { readonly owner: Owner | undefined; readonly text: string }> {
  let text = '';
  // Whoever created it a moment ago may still be writing its one line.
  for (let look = 0; look < 4; look++) {
    if (look > 0) await wait(LOOK_AGAIN);
    try {
      text = decode(await files.read(lock));
    } catch (error) {
      if (systemCode(error) === 'ENOENT') return 'gone';
      throw cannotLock(lock, error);
    }
    const owner = ownerOf(text);
    if (owner) return { owner, text };
  }
  return { owner: undefined, text };
}

/**
 * Removes a stale lock. Only who holds the file `.takeover` may: otherwise one program, late, would take away the lock that another
 * has put in its place meanwhile, and both would write.
 */
async function removeStale(lock: string, stale: string, path: string, files: FileSystem): Promise<void> {
  const takeover = takeoverPath(lock);
  try {
    await (await files.create(takeover)).close();
  } catch (error) {
    if (systemCode(error) !== 'EEXIST') throw cannotLock(path, error);
    await wait(LOOK_AGAIN);
    return;
  }
  try {
    if (decode(await files.read(lock)) === stale) await files.remove(lock);
  } catch (error) {
    if (systemCode(error) !== 'ENOENT') throw cannotLock(path, error);
  } finally {
    await files.remove(takeover).catch(() => undefined);
  }
}

function ownerOf(text: string): Owner | undefined {
  try {
    const { pid, host, started } = JSON.parse(text) as Partial<Owner>;
    return typeof pid === 'number' && Number.isInteger(pid) && pid > 0 && typeof host === 'string'
      ? { pid, host, started: String(started) }
      : undefined;
  } catch {
    return undefined;
  }
}

function lockedBy(owner: Owner | undefined, path: string, lock: string): JournalError {
  const who = owner
    ? `process ${owner.pid} on ${owner.host}, started ${owner.started}`
    : 'a process that did not say its name';
  return new JournalError(
    'locked',
    `${path} is in use by ${who}`,
    owner?.host === OWN.host
      ? `close the session there first; if that process is not this program, delete ${lock}`
      : `close the session on that computer; if it is not open there, delete ${lock}`,
  );
}

function beingTakenOver(path: string, lock: string): JournalError {
  return new JournalError(
    'locked',
    `${path} was left locked, and another program seems to be taking it over`,
    `try again; if no other program is at it, delete ${takeoverPath(lock)}`,
  );
}

function cannotLock(path: string, error: unknown): JournalError {
  return new JournalError(
    'cannot-write',
    `no lock file can be kept beside ${path} (${systemCode(error) || 'unknown reason'})`,
    'check that the folder exists and may be written to, or name another with --session',
    { cause: error },
  );
}

function decode(bytes: Uint8Array): string {
  return new TextDecoder('utf-8').decode(bytes);
}
