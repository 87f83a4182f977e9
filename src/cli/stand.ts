/** What a test puts in place of a terminal. */
import type { MakeAsker } from './talk/asker-for.js';

/** Replaces what cannot be had in a test: a person at a terminal. */
export interface Stand {
  readonly asker?: MakeAsker;
}
