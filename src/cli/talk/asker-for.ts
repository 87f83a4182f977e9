/** Where the typed lines come from: a file, a pipe, or a person at the keyboard. */
import { resolve } from 'node:path';
import { readTextFile } from '../../files/text-file.js';
import { colourLevel } from '../colour.js';
import type { Context } from '../context.js';
import { Failure } from '../failure.js';
import { scriptAsker, type Asker } from './asker.js';

export interface LineFlags {
  /** File with the lines to type. */
  readonly answers?: string;
  readonly color?: boolean;
}

/** Replaces the source of typed lines; tests play a person with it. */
export type MakeAsker = (context: Context) => Promise<Asker>;

/** Lines from the named file, from a pipe, or from a person at the keyboard. */
export function askerFor(flags: LineFlags): MakeAsker {
  return async (context) => {
    const { io, output } = context;
    const script = (text: string): Asker =>
      scriptAsker(text.split(/\r?\n/), (shown) => output.say(shown, 'faint'));
    if (flags.answers !== undefined) {
      const file = await readTextFile(resolve(io.cwd, flags.answers));
      if ('problems' in file)
        throw new Failure(`${flags.answers}: ${file.problems[0]!.message}`, file.problems[0]!.mend);
      return script(file.text);
    }
    if (!io.isTTY.stdin) return script(await textOf(io.stdin));
    const { terminalAsker } = await import('./terminal-asker.js');
    return terminalAsker(io, colourLevel(io, 'stderr', flags.color) > 0);
  };
}

async function textOf(stream: AsyncIterable<unknown>): Promise<string> {
  const pieces: Buffer[] = [];
  for await (const piece of stream)
    pieces.push(typeof piece === 'string' ? Buffer.from(piece) : (piece as Buffer));
  return Buffer.concat(pieces).toString('utf8');
}
