/** What every command gets: the outside world and the way to speak. */
import type { Io, Status } from './io.js';
import type { Output } from './output.js';

export interface Context {
  readonly io: Io;
  readonly output: Output;
  /** File with the person's own costs. */
  readonly costs?: string | undefined;
}

export type CommandResult = Promise<Status>;
