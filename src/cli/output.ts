/**
 * The one place where text leaves for a terminal: results on stdout, everything else on stderr.
 * A reader that closes the pipe early (`| head`) is no error.
 */
import type { Writable } from 'node:stream';
import type { ChalkInstance } from 'chalk';
import { visible } from '../circuit/visible.js';
import { toAscii } from '../report/layout.js';
import { chalkFor, knowsUnicode } from './colour.js';
import type { Io } from './io.js';

/** Raised when the schema of any `--json` answer changes. */
export const JSON_SCHEMA = 1;

export interface Output {
  /** A result, one or more lines; a line end is added. */
  result(text: string): void;
  /** A result exactly as it is. */
  raw(text: string): void;
  /** One JSON object with its kind and schema version. */
  json(kind: string, fields: Readonly<Record<string, unknown>>): void;
  /** A message: what goes on, what to do next. */
  say(text: string): void;
  /** What went wrong, and how to mend it. */
  complain(message: string, mend?: string): void;
  /** Styles of stdout and of stderr; they do nothing where colour is off. */
  readonly style: ChalkInstance;
  readonly messageStyle: ChalkInstance;
  /** True when only ASCII may be printed. */
  readonly ascii: boolean;
}

export function createOutput(io: Io, flags: { readonly color?: boolean; readonly ascii?: boolean }): Output {
  const style = chalkFor(io, 'stdout', flags.color);
  const messageStyle = chalkFor(io, 'stderr', flags.color);
  const ascii = flags.ascii ?? !knowsUnicode(io);
  const fit = (text: string): string => (ascii ? foldKeepingStyle(text) : text);
  quietOnClosedPipe(io.stdout);
  quietOnClosedPipe(io.stderr);
  return {
    style,
    messageStyle,
    ascii,
    result: (text) => void io.stdout.write(`${fit(text)}\n`),
    raw: (text) => void io.stdout.write(text),
    json: (kind, fields) =>
      void io.stdout.write(`${JSON.stringify({ schema: JSON_SCHEMA, kind: `knowngood ${kind}`, ...fields }, null, 2)}\n`),
    say: (text) => void io.stderr.write(`${fit(text)}\n`),
    complain: (message, mend = '') => {
      const lines = [messageStyle.red(visible(message, { lines: true })), visible(mend, { lines: true })];
      io.stderr.write(`${fit(lines.filter((line) => line !== '').join('\n'))}\n`);
    },
  };
}

/** Colour sequences are our own and stay; everything else is folded to ASCII. */
function foldKeepingStyle(text: string): string {
  // eslint-disable-next-line no-control-regex
  return text.replace(/(\u001b\[[0-9;]*m)|([^\u001b]+)/g, (_all, style: string | undefined, plain: string | undefined) =>
    style ?? toAscii(plain ?? ''),
  );
}

const guarded = new WeakSet<Writable>();

function quietOnClosedPipe(stream: Writable): void {
  if (guarded.has(stream)) return;
  guarded.add(stream);
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}
