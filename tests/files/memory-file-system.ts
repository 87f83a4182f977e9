/** Files in memory that remember the order of calls, what a loss of power would leave, and that fail when told to. */
import type { FileSystem, OpenFile } from '../../src/files/file-system.js';

export class MemoryFileSystem implements FileSystem {
  /** What a running system reads. */
  readonly files = new Map<string, Uint8Array>();
  /** What was there at the last sync of each file. */
  readonly durable = new Map<string, Uint8Array>();
  /** `write 120`, `sync`, `truncate 80` … of every file but locks. */
  readonly log: string[] = [];
  /** Number of the call that fails (from 1), counted over write, sync and truncate of every file but locks. */
  failAt = 0;
  failCode = 'EIO';
  /** Bytes of the failing write that still reach the file. */
  failAfter = 0;
  /** Most bytes one write takes. */
  mostBytes = Infinity;
  calls = 0;

  create(path: string): Promise<OpenFile> {
    if (this.files.has(path)) return Promise.reject(failure('EEXIST'));
    this.files.set(path, new Uint8Array());
    return Promise.resolve(this.handle(path));
  }

  open(path: string): Promise<OpenFile> {
    return this.files.has(path) ? Promise.resolve(this.handle(path)) : Promise.reject(failure('ENOENT'));
  }

  read(path: string): Promise<Uint8Array> {
    const bytes = this.files.get(path);
    return bytes ? Promise.resolve(bytes.slice()) : Promise.reject(failure('ENOENT'));
  }

  remove(path: string): Promise<void> {
    return this.files.delete(path) ? Promise.resolve() : Promise.reject(failure('ENOENT'));
  }

  makeFolder(): Promise<void> {
    return Promise.resolve();
  }

  syncFolder(): Promise<void> {
    this.log.push('sync folder');
    return Promise.resolve();
  }

  private handle(path: string): OpenFile {
    const lock = path.endsWith('.lock');
    const call = (what: string): boolean => {
      if (lock) return false;
      this.log.push(what);
      return ++this.calls === this.failAt;
    };
    const write = (bytes: Uint8Array, position: number): void => {
      const before = this.files.get(path)!;
      const after = new Uint8Array(Math.max(before.length, position + bytes.length));
      after.set(before);
      after.set(bytes, position);
      this.files.set(path, after);
    };
    return {
      write: (bytes, position) => {
        if (call(`write ${bytes.length}`)) {
          write(bytes.subarray(0, this.failAfter), position);
          return Promise.reject(failure(this.failCode));
        }
        const taken = bytes.subarray(0, this.mostBytes);
        write(taken, position);
        return Promise.resolve(taken.length);
      },
      sync: () => {
        if (call('sync')) return Promise.reject(failure(this.failCode));
        this.durable.set(path, this.files.get(path)!.slice());
        return Promise.resolve();
      },
      truncate: (length) => {
        if (call(`truncate ${length}`)) return Promise.reject(failure(this.failCode));
        this.files.set(path, this.files.get(path)!.slice(0, length));
        return Promise.resolve();
      },
      close: () => Promise.resolve(),
    };
  }
}

function failure(code: string): Error {
  return Object.assign(new Error(code), { code });
}
