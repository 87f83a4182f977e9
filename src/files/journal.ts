/**
 * The journal of a session: append-only, one checksummed line an event, on the disk before anybody is told "recorded".
 * What a crash left half written is cut off and reported; anything else that is not as written is refused by name.
 */
import { dirname } from 'node:path';
import type { Event, Recorded } from '../session/events.js';
import type { Judgement } from '../session/judgement.js';
import { diskFileSystem, type FileSystem, type OpenFile } from './file-system.js';
import { isEvent } from './event-check.js';
import { JournalError, systemCode } from './journal-error.js';
import {
  header,
  readContents,
  recordLine,
  VERSION,
  type Contents,
  type Damage,
  type Repair,
} from './journal-format.js';
import { takeLock, type Lock } from './journal-lock.js';

export { JournalError } from './journal-error.js';
export type { Repair } from './journal-format.js';

export interface Journal {
  readonly path: string;
  /** SHA-256 that names the session as far as it is recorded. */
  readonly hash: string;
  /**
   * Records the events at that time (ISO 8601) and returns them with their numbers, once they are on the disk. One after
   * the other when called again before that. A failure is final: nothing of this call counts and the journal takes no more.
   * @param judged what is concluded with these events, kept beside the last of them
   */
  append(events: readonly Event[], at: string, judged?: Judgement): Promise<readonly Recorded[]>;
  /** Waits for what is being written, and gives the lock back. */
  close(): Promise<void>;
}

export interface OpenedJournal {
  readonly journal: Journal;
  readonly recorded: readonly Recorded[];
  readonly hash: string;
  readonly repairs: readonly Repair[];
}

export interface ReadJournal {
  readonly recorded: readonly Recorded[];
  readonly hash: string;
  /** What opening for writing would mend. */
  readonly repairs: readonly Repair[];
}

/** Begins a journal in a new file, with its folder. Throws JournalError: `exists`, `locked`, `cannot-write`. */
export async function createJournal(path: string, files: FileSystem = diskFileSystem): Promise<Journal> {
  await files.makeFolder(dirname(path)).catch((error: unknown) => {
    throw cannotWrite(path, error);
  });
  const lock = await takeLock(path, files);
  let file: OpenFile | undefined;
  try {
    file = await files.create(path);
    const { line, hash } = header();
    await writeAll(file, line, 0);
    await file.sync();
    await files.syncFolder(dirname(path));
    return journalOn(path, file, lock, { number: 0, hash, length: line.length });
  } catch (error) {
    await file?.close().catch(() => undefined);
    if (file) await files.remove(path).catch(() => undefined);
    await lock.release();
    if (systemCode(error) !== 'EEXIST') throw cannotWrite(path, error);
    throw new JournalError(
      'exists',
      `${path} exists already`,
      'resume that session, or choose another file name',
      { cause: error },
    );
  }
}

/** Opens a journal to go on with it. Throws JournalError; a file that is refused is left as it is. */
export async function openJournal(path: string, files: FileSystem = diskFileSystem): Promise<OpenedJournal> {
  // Looked at before the lock, so that a wrong file name leaves no lock file behind.
  await load(path, files);
  const lock = await takeLock(path, files);
  let file: OpenFile | undefined;
  try {
    const contents = await load(path, files);
    file = await files.open(path);
    let { length } = contents;
    if (contents.repairs.length > 0) {
      await file.truncate(length);
      if (contents.lineEndLost) length += await writeAll(file, LINE_END, length);
    }
    // A process that was killed may have written what nobody synced: it is shown as recorded from here on.
    await file.sync();
    const { recorded, hash, repairs } = contents;
    const journal = journalOn(path, file, lock, { number: recorded.length, hash, length });
    return { journal, recorded, hash, repairs };
  } catch (error) {
    await file?.close().catch(() => undefined);
    await lock.release();
    throw error instanceof JournalError ? error : cannotWrite(path, error);
  }
}

/** Reads a journal without lock and without mending it. Throws JournalError. */
export async function readJournal(path: string, files: FileSystem = diskFileSystem): Promise<ReadJournal> {
  const { recorded, hash, repairs } = await load(path, files);
  return { recorded, hash, repairs };
}

/** A repair in words, for the person who resumes. */
export function describeRepair(repair: Repair): string {
  return repair.kind === 'cut'
    ? `event ${repair.number} was never recorded completely: ${repair.bytes} bytes cut off at byte ${repair.offset}`
    : `event ${repair.number} is complete, only the end of its line was lost; it is mended`;
}

const LINE_END = new Uint8Array([0x0a]);

interface End {
  readonly number: number;
  readonly hash: string;
  readonly length: number;
}

function journalOn(path: string, file: OpenFile, lock: Lock, start: End): Journal {
  let end = start;
  let broken: JournalError | undefined;
  let last: Promise<unknown> = Promise.resolve();

  const write = async (
    events: readonly Event[],
    at: string,
    judged?: Judgement,
  ): Promise<readonly Recorded[]> => {
    if (broken) throw broken;
    // What comes back is what a later reading of the file gives, to the last digit.
    const asRead = JSON.parse(JSON.stringify(events)) as Event[];
    const strange = asRead.findIndex((event) => !isEvent(event));
    if (strange >= 0) throw new TypeError(`no event of this format: ${JSON.stringify(asRead[strange])}`);
    let { number, hash, length } = end;
    const recorded: Recorded[] = [];
    try {
      for (const [index, event] of asRead.entries()) {
        const beside = judged !== undefined && index === asRead.length - 1 ? { judged } : {};
        const record: Recorded = { number: ++number, at, event, ...beside };
        const sealed = recordLine(hash, record);
        length += await writeAll(file, sealed.line, length);
        hash = sealed.hash;
        recorded.push(record);
      }
      if (events.length > 0) await file.sync();
    } catch (error) {
      broken = cannotRecord(path, end.number, error);
      // The half that was written must not come back as recorded. Tried once: after a failed sync nothing is sure.
      await file.truncate(end.length).catch(() => undefined);
      throw broken;
    }
    end = { number, hash, length };
    return recorded;
  };

  return {
    path,
    get hash() {
      return end.hash;
    },
    append(events, at, judged) {
      const turn = last.then(() => write(events, at, judged));
      last = turn.catch(() => undefined);
      return turn;
    },
    async close() {
      await last;
      if (broken?.code === 'closed') return;
      broken = new JournalError('closed', `${path} is closed`, 'open the session again');
      await file.close().catch(() => undefined);
      await lock.release();
    },
  };
}

/** One write for the record; more only where the system took less than was given. */
async function writeAll(file: OpenFile, bytes: Uint8Array, position: number): Promise<number> {
  for (let done = 0; done < bytes.length;) {
    const written = await file.write(bytes.subarray(done), position + done);
    if (written <= 0) throw Object.assign(new Error('nothing was written'), { code: 'EIO' });
    done += written;
  }
  return bytes.length;
}

async function load(path: string, files: FileSystem): Promise<Contents> {
  let bytes;
  try {
    bytes = await files.read(path);
  } catch (error) {
    throw cannotRead(path, error);
  }
  const contents = readContents(bytes);
  if ('problem' in contents) throw refusal(path, contents);
  return contents;
}

function refusal(path: string, { problem, number, offset, version }: Damage): JournalError {
  switch (problem) {
    case 'not-a-journal':
      return new JournalError(
        problem,
        `${path} is not a session journal`,
        'check the file name; sessions written by hand are replayed, not resumed',
      );
    case 'not-begun':
      return new JournalError(
        problem,
        `${path} was never begun: nothing is recorded in it`,
        'delete it and start the session again',
      );
    case 'future-version':
      return new JournalError(
        problem,
        `${path} is a journal of version ${String(version)}; this program knows version ${VERSION}`,
        'use the newer program that wrote it',
      );
    case 'damaged': {
      const where = number === 0 ? 'the first line' : `record ${number}`;
      return new JournalError(
        problem,
        `${path} is damaged: ${where} at byte ${offset} is not as it was written`,
        number > 1
          ? `restore a copy of the file; records 1 to ${number - 1} are sound`
          : 'restore a copy of the file',
      );
    }
  }
}

function cannotRead(path: string, error: unknown): JournalError {
  const code = systemCode(error);
  if (code === 'ENOENT' || code === 'ENOTDIR')
    return new JournalError('missing', `there is no session ${path}`, 'check the name and the folder', {
      cause: error,
    });
  const why =
    code === 'EISDIR'
      ? 'it is a folder'
      : code === 'EFBIG'
        ? 'it is larger than 64 MiB'
        : code || 'unknown reason';
  return new JournalError(
    'cannot-read',
    `${path} cannot be read (${why})`,
    'check that it is the right file and that you may read it',
    { cause: error },
  );
}

function cannotWrite(path: string, error: unknown): JournalError {
  return new JournalError(
    'cannot-write',
    `${path} cannot be written (${systemCode(error) || 'unknown reason'})`,
    'check that the folder exists, may be written to and has room, or name another with --session',
    { cause: error },
  );
}

function cannotRecord(path: string, safe: number, error: unknown): JournalError {
  const code = systemCode(error);
  const why = code === 'ENOSPC' ? 'the disk is full' : code || 'unknown reason';
  return new JournalError(
    'cannot-write',
    `not recorded: ${path} cannot be written (${why})`,
    `everything up to event ${safe} is safe: ${code === 'ENOSPC' ? 'make room' : 'check the disk'}, then resume the session`,
    { cause: error },
  );
}
