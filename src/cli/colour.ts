/** How much colour a stream may show; decided once, for each stream by itself. */
import { Chalk, type ChalkInstance } from 'chalk';
import type { Io } from './io.js';

/** Flag, then FORCE_COLOR / NO_COLOR, then TERM=dumb, then whether it is a terminal. */
export function colourLevel(io: Io, stream: 'stdout' | 'stderr', flag: boolean | undefined): 0 | 1 {
  if (flag === false) return 0;
  const { FORCE_COLOR: force, NO_COLOR: none, TERM: term } = io.env;
  if (force !== undefined && force !== '') return force === '0' || force === 'false' ? 0 : 1;
  if (none !== undefined && none !== '') return 0;
  if (term === 'dumb') return 0;
  return io.isTTY[stream] ? 1 : 0;
}

export function chalkFor(io: Io, stream: 'stdout' | 'stderr', flag: boolean | undefined): ChalkInstance {
  return new Chalk({ level: colourLevel(io, stream, flag) });
}

/** False where signs beyond ASCII may come out wrong: not a UTF-8 locale, or an old Windows console. */
export function knowsUnicode(io: Io): boolean {
  if (io.env.TERM === 'dumb' || io.env.TERM === 'linux') return false;
  if (io.platform === 'win32') return Boolean(io.env.WT_SESSION ?? io.env.TERM_PROGRAM);
  const locale = io.env.LC_ALL || io.env.LC_CTYPE || io.env.LANG || '';
  return /utf-?8/i.test(locale);
}
