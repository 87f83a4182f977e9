/** Writes a file of a person's own, and never over one that is there. */
import { open, rename, unlink } from 'node:fs/promises';

export type Written = { readonly bytes: number } | { readonly problem: string; readonly mend: string };

/**
 * Writes the text under a name that is free; with `replace` also over a file that is there, in one step, so that a full disk
 * leaves the old one whole.
 */
export async function writeNewFile(path: string, text: string, { replace = false } = {}): Promise<Written> {
  const target = replace ? `${path}.new` : path;
  try {
    const file = await open(target, replace ? 'w' : 'wx');
    try {
      await file.writeFile(text, 'utf8');
      await file.sync();
    } catch (error) {
      await unlink(target).catch(() => undefined);
      throw error;
    } finally {
      await file.close();
    }
    if (replace) await rename(target, path);
    return { bytes: Buffer.byteLength(text) };
  } catch (error) {
    return wordsFor((error as NodeJS.ErrnoException).code);
  }
}

function wordsFor(code: string | undefined): Extract<Written, { problem: string }> {
  switch (code) {
    case 'EEXIST':
      return { problem: 'there is such a file already; it was left as it is', mend: 'Give another name.' };
    case 'ENOENT':
    case 'ENOTDIR':
      return { problem: 'there is no such folder', mend: 'Make the folder first, or give another name.' };
    case 'EISDIR':
      return { problem: 'this is a folder', mend: 'Give the name of a file in it.' };
    case 'EACCES':
    case 'EPERM':
    case 'EROFS':
      return { problem: 'this may not be written', mend: 'Give a name in a folder of your own.' };
    case 'ENOSPC':
      return { problem: 'the disk is full', mend: 'Make room, then try again.' };
    default:
      return {
        problem: `the file cannot be written (${code ?? 'unknown reason'})`,
        mend: 'Give another name.',
      };
  }
}
