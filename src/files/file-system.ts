/**
 * The few file operations that journals and locks need, so that tests can make any one of them fail.
 * Every function rejects with the system's own error (`code`: ENOENT, EEXIST, ENOSPC, EIO …).
 */
import { mkdir, open, readFile, stat, unlink, type FileHandle } from 'node:fs/promises';

export interface OpenFile {
  /** Writes some or all of the bytes at that position; returns how many. */
  write(bytes: Uint8Array, position: number): Promise<number>;
  /** Resolves once what was written, and the length, would survive a loss of power. */
  sync(): Promise<void>;
  truncate(length: number): Promise<void>;
  close(): Promise<void>;
}

export interface FileSystem {
  /** Creates a file that must not exist yet (EEXIST). */
  create(path: string): Promise<OpenFile>;
  /** Opens a file that must exist (ENOENT), for writing. */
  open(path: string): Promise<OpenFile>;
  /** All bytes of an ordinary file. */
  read(path: string): Promise<Uint8Array>;
  remove(path: string): Promise<void>;
  makeFolder(path: string): Promise<void>;
  /** Makes a new name in the folder survive a loss of power, where the platform can. */
  syncFolder(path: string): Promise<void>;
}

/** The longest journal that is read, in bytes; an event takes about 300. */
const MOST_BYTES = 64 * 1024 * 1024;

export const diskFileSystem: FileSystem = {
  // Readable by the owner alone: sessions name people.
  create: async (path) => openFile(await open(path, 'wx', 0o600)),
  open: async (path) => openFile(await open(path, 'r+')),
  async read(path) {
    const status = await stat(path);
    if (status.isDirectory()) throw Object.assign(new Error('is a folder'), { code: 'EISDIR' });
    if (!status.isFile()) throw Object.assign(new Error('is no ordinary file'), { code: 'EINVAL' });
    if (status.size > MOST_BYTES) throw Object.assign(new Error('is too large'), { code: 'EFBIG' });
    return readFile(path);
  },
  remove: unlink,
  makeFolder: async (path) => {
    await mkdir(path, { recursive: true, mode: 0o700 });
  },
  async syncFolder(path) {
    // Windows opens no folders; some file systems open but do not sync them.
    if (process.platform === 'win32') return;
    let folder: FileHandle | undefined;
    try {
      folder = await open(path, 'r');
      await folder.sync();
    } catch (error) {
      if (
        !['EPERM', 'EISDIR', 'EINVAL', 'ENOTSUP', 'EACCES'].includes((error as { code?: string }).code ?? '')
      )
        throw error;
    } finally {
      await folder?.close().catch(() => undefined);
    }
  },
};

function openFile(handle: FileHandle): OpenFile {
  return {
    write: async (bytes, position) => (await handle.write(bytes, 0, bytes.length, position)).bytesWritten,
    sync: () => handle.datasync(),
    truncate: (length) => handle.truncate(length),
    close: () => handle.close(),
  };
}
