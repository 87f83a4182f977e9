/** The YAML library's complaints, said to somebody who has never heard of YAML. */
import type { YAMLError } from 'yaml';
import type { Range } from '../circuit/diagnostic.js';

type Words = readonly [message: string, mend: string];

const WORDS: Readonly<Record<string, Words>> = {
  TAB_AS_INDENT: ['a tab stands at the start of this line', 'indent with spaces, two for each step'],
  BAD_INDENT: [
    'this line is not indented like its neighbours',
    'start it in the same column as the lines it belongs with',
  ],
  BLOCK_AS_IMPLICIT_KEY: [
    'two names with a colon stand on one line',
    'put each “name: value” on a line of its own, or put quotes around a value that contains a colon',
  ],
  MULTILINE_IMPLICIT_KEY: [
    'this line has no “name: value”',
    'put a colon and a space after the name, or indent the line if it continues the one above',
  ],
  BLOCK_IN_FLOW: ['a list with dashes stands inside [ ] or { }', 'separate the entries with commas instead'],
  BAD_SCALAR_START: ['a value cannot begin with this character', 'put the value in quotes'],
  BAD_DQ_ESCAPE: [
    'a backslash in a value with double quotes means something special',
    'use single quotes around the value',
  ],
  BAD_COLLECTION_TYPE: [
    'entries of a list and of a group are mixed here',
    'use either dashes or names throughout',
  ],
  KEY_OVER_1024_CHARS: ['this name is far too long', 'shorten it, or add the missing colon'],
  RESOURCE_EXHAUSTION: [
    'this part of the file is too deep or too large to read',
    'split it or delete what is not needed',
  ],
};

/** Words and place for one complaint of the library. Never repeats the library's own text, which echoes the file. */
export function plainWords(error: YAMLError, text: string): { range: Range; message: string; mend: string } {
  const start = Math.min(error.pos[0], text.length);
  const lineStart = text.lastIndexOf('\n', start - 1) + 1;
  const lineEnd = text.indexOf('\n', start) < 0 ? text.length : text.indexOf('\n', start);
  const line = text.slice(lineStart, lineEnd);
  const range = { start, end: Math.max(start, Math.min(error.pos[1], lineEnd)) };
  const say = ([message, mend]: Words, where: Range = range) => ({ range: where, message, mend });

  const tab = /^ *\t/.exec(line);
  if (tab) {
    const at = lineStart + tab[0].length - 1;
    return say(WORDS['TAB_AS_INDENT']!, { start: at, end: at + 1 });
  }
  // `name:value` on its own is one word to YAML, and everything after it then looks wrong.
  const glued = /^[\s-]*([A-Za-z][\w -]*):(?=[^\s:])/.exec(line);
  if (glued && error.code !== 'BLOCK_AS_IMPLICIT_KEY') {
    const at = lineStart + glued[0].length - 1;
    return say([`there is no space after “${glued[1]!.trim()}:”`, 'put a space after the colon'], {
      start: at,
      end: at + 1,
    });
  }
  const known = WORDS[error.code];
  if (known) return say(known);
  const about = error.message;
  if (/closing|end with a|Expected flow|Missing closing|must end/i.test(about)) {
    if (/quote/i.test(about)) return say(['a quote is opened and never closed', 'add the closing quote']);
    if (/\}/.test(about)) return say(['a { is opened and never closed', 'add the closing }']);
    if (/\]/.test(about)) return say(['a [ is opened and never closed', 'add the closing ]']);
  }
  if (/Missing , /i.test(about)) {
    return say([
      'there is no comma between two entries',
      'put a comma between the entries inside { } or [ ]',
    ]);
  }
  if (/Unexpected (,|flow)|, in flow/i.test(about))
    return say(['a comma stands where an entry should be', 'delete one comma']);
  if (error.code === 'MISSING_CHAR') {
    return say([
      'something is missing here: a space, a colon or a comma',
      'compare the line with the ones above it',
    ]);
  }
  return say([
    'this cannot be read here',
    'compare the line with the ones above it: colons, commas, brackets, quotes',
  ]);
}
