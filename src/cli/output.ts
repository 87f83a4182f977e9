/**
 * The one place where text leaves for a terminal: results on stdout, everything else on stderr, and nothing that came from
 * a file or a keyboard may steer the screen. A reader that closes the pipe early (`| head`) is no error.
 */
import type { Writable } from 'node:stream';
import type { ChalkInstance } from 'chalk';
import { visible } from '../circuit/visible.js';
import { toAscii } from '../report/layout.js';
import { chalkFor, knowsUnicode } from './colour.js';
import type { Io } from './io.js';

/** Raised when the schema of any `--json` answer changes. */
export const JSON_SCHEMA = 1;

/** How a message is set off where colour is on. */
export type Tone = 'plain' | 'strong' | 'faint' | 'good' | 'warning' | 'error';

export interface Output {
  /** A result, one or more lines; a line end is added. */
  result(text: string, tone?: Tone): void;
  /** One JSON object with its kind and schema version. */
  json(kind: string, fields: Readonly<Record<string, unknown>>): void;
  /** A message: what goes on, what to do next. */
  say(text: string, tone?: Tone): void;
  /** What went wrong, and how to mend it. */
  complain(message: string, mend?: string): void;
  /** True when only ASCII may be printed. */
  readonly ascii: boolean;
}

export interface OutputFlags {
  /** False = no colour, whatever the terminal. */
  readonly color?: boolean;
  readonly ascii?: boolean;
}

export function createOutput(io: Io, flags: OutputFlags = {}): Output {
  const ascii = flags.ascii ?? !knowsUnicode(io);
  quietOnClosedPipe(io.stdout);
  quietOnClosedPipe(io.stderr);
  const writer = (stream: 'stdout' | 'stderr'): ((text: string, tone?: Tone) => void) => {
    const styles = tones(chalkFor(io, stream, flags.color));
    return (text, tone = 'plain') => {
      const plain = visible(text, { lines: true });
      io[stream].write(`${styles[tone](ascii ? toAscii(plain) : plain)}\n`);
    };
  };
  const result = writer('stdout');
  const say = writer('stderr');
  return {
    ascii,
    result,
    json: (kind, fields) =>
      void io.stdout.write(`${jsonText({ schema: JSON_SCHEMA, kind: `knowngood ${kind}`, ...fields })}\n`),
    say,
    complain: (message, mend = '') => {
      say(message, 'error');
      if (mend !== '') say(mend);
    },
  };
}

/** JSON in which no character can steer a terminal: those that JSON leaves as they are become escapes. */
export function jsonText(value: unknown): string {
  return JSON.stringify(value, null, 2).replace(/[\u007f-\u009f\p{Cf}\p{Zl}\p{Zp}]/gu, (sign) =>
    Array.from(
      { length: sign.length },
      (_, i) => `\\u${sign.charCodeAt(i).toString(16).padStart(4, '0')}`,
    ).join(''),
  );
}

function tones(chalk: ChalkInstance): Readonly<Record<Tone, (text: string) => string>> {
  return {
    plain: (text) => text,
    strong: chalk.bold,
    faint: chalk.dim,
    good: chalk.green,
    warning: chalk.yellow,
    error: chalk.red,
  };
}

const guarded = new WeakSet<Writable>();

function quietOnClosedPipe(stream: Writable): void {
  if (guarded.has(stream)) return;
  guarded.add(stream);
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
  });
}
