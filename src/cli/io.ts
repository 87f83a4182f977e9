/** Everything of the outside world that a command may use. Tests pass streams of their own. */
import type { Readable, Writable } from 'node:stream';

export interface Io {
  readonly stdin: Readable;
  readonly stdout: Writable;
  readonly stderr: Writable;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Directory that relative paths start from. */
  readonly cwd: string;
  now(): Date;
  readonly platform: NodeJS.Platform;
  readonly isTTY: { readonly stdin: boolean; readonly stdout: boolean; readonly stderr: boolean };
}

/** Exit statuses: 0 fine, 1 a negative result, 2 could not run, 130 interrupted (the journal is safe). */
export const STATUS = { ok: 0, negative: 1, cannotRun: 2, interrupted: 130 } as const;
export type Status = (typeof STATUS)[keyof typeof STATUS];
