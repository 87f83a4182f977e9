/** Reads a text file that a person wrote: not too long, in UTF-8, and never an exception for what the file may be. */
import { constants } from 'node:fs';
import { open } from 'node:fs/promises';
import type { Diagnostic, DiagnosticCode } from '../circuit/diagnostic.js';

/** The longest file that is read, in bytes. A circuit of 250 parts takes about 60,000. */
export const MOST_BYTES = 1024 * 1024;

export type TextFile =
  | { readonly text: string; readonly bytes: Uint8Array }
  /** `source`: as much text as there is to point at. */
  | { readonly problems: Diagnostic[]; readonly source: string };

const fail = (code: DiagnosticCode, message: string, mend: string, source = '', start = 0): TextFile => ({
  problems: [
    { code, severity: 'error', range: { start, end: Math.min(source.length, start + 1) }, message, mend },
  ],
  source,
});

/** Reads a file from disk. */
export async function readTextFile(path: string): Promise<TextFile> {
  let file;
  try {
    // Only ordinary files, and no waiting: opening a pipe that nobody writes to would never return.
    file = await open(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const status = await file.stat();
    if (status.isDirectory())
      return fail('cannot-read', 'this is a folder, not a file', 'give the name of a file in it');
    if (!status.isFile())
      return fail('cannot-read', 'this is not an ordinary file', 'copy it into a file first');
    const buffer = new Uint8Array(MOST_BYTES + 1);
    let length = 0;
    while (length < buffer.length) {
      const { bytesRead } = await file.read(buffer, length, buffer.length - length, length);
      if (bytesRead === 0) break;
      length += bytesRead;
    }
    return decode(buffer.slice(0, length));
  } catch (error) {
    return fail('cannot-read', ...reasonOf(error));
  } finally {
    await file?.close().catch(() => undefined);
  }
}

/** Bytes → text, strictly UTF-8, with or without a byte order mark. */
export function decode(bytes: Uint8Array): TextFile {
  if (bytes.length > MOST_BYTES) {
    return fail(
      'too-big',
      'the file is larger than 1 MiB',
      'check that it is the right file; a circuit needs far less',
    );
  }
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return fail('bad-encoding', 'the file is saved as UTF-16', 'save it again from your editor as UTF-8');
  }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), bytes };
  } catch {
    const good = goodPrefix(bytes);
    return fail(
      'bad-encoding',
      'a character here is not UTF-8',
      'type it again and save the file from your editor as UTF-8',
      new TextDecoder('utf-8').decode(bytes),
      new TextDecoder('utf-8').decode(bytes.subarray(0, good)).length,
    );
  }
}

/** How many bytes from the start are whole, valid UTF-8 characters. */
function goodPrefix(bytes: Uint8Array): number {
  const valid = (length: number): boolean => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream: true });
      return true;
    } catch {
      return false;
    }
  };
  let low = 0;
  let high = bytes.length;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (valid(middle)) low = middle;
    else high = middle - 1;
  }
  // The last character may be cut off: go back to where it begins.
  let start = low;
  while (start > 0 && low - start < 3 && (bytes[start - 1]! & 0xc0) === 0x80) start--;
  if (start > 0 && bytes[start - 1]! >= 0xc0) {
    const lead = bytes[start - 1]!;
    const needs = lead >= 0xf0 ? 4 : lead >= 0xe0 ? 3 : 2;
    if (low - (start - 1) < needs) return start - 1;
  }
  return low;
}

function reasonOf(error: unknown): [message: string, mend: string] {
  switch ((error as NodeJS.ErrnoException).code) {
    case 'ENOENT':
    case 'ENOTDIR':
      return ['there is no such file', 'check the name and the folder'];
    case 'EACCES':
    case 'EPERM':
      return ['the file may not be read', 'ask for the right to read it, or copy it'];
    case 'EISDIR':
      return ['this is a folder, not a file', 'give the name of a file in it'];
    default:
      return [
        `the file cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'})`,
        'try a copy of it',
      ];
  }
}
