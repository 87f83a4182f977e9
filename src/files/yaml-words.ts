/** The YAML library's complaints, said to somebody who has never heard of YAML. */
import type { YAMLError } from 'yaml';
import type { Range } from '../circuit/diagnostic.js';
import type { Opening, OpeningFinder } from './yaml-openings.js';

type Words = readonly [message: string, mend: string];

const WORDS: Readonly<Record<string, Words>> = {
  TAB_AS_INDENT: ['a tab stands at the start of this line', 'indent with spaces, two for each step'],
  BAD_INDENT: [
    'this line is not indented like its neighbours',
    'start it in the same column as the lines it belongs with',
  ],
  BLOCK_AS_IMPLICIT_KEY: [
    'two names with a colon stand on one line',
    'put quotes around a value that contains a colon, or put each “name: value” on a line of its own',
  ],
  MULTILINE_IMPLICIT_KEY: [
    'this line has no “name: value”',
    'put a colon and a space after the name, or indent the line if it continues the one above',
  ],
  BLOCK_IN_FLOW: [
    'two “name: value” entries run together here',
    'put a comma between them, or put quotes around a value that contains a colon',
  ],
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
export function plainWords(
  error: YAMLError,
  text: string,
  opened: OpeningFinder,
): { range: Range; message: string; mend: string } {
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
  const about = error.message;
  const missing = /Missing closing ("|')quote|must .*end with a ([\]}])/.exec(about);
  if (missing) {
    const kind = (missing[1] ?? (missing[2] === '}' ? '{' : '[')) as Opening;
    const at = opened(kind, error.pos[0]) ?? opened(kind, text.length);
    const where = at === undefined ? range : { start: at, end: at + 1 };
    return missing[1] !== undefined
      ? say(['a quote is opened here and never closed', 'add the closing quote'], where)
      : say([`a ${kind} is opened here and never closed`, `add the closing ${missing[2]}`], where);
  }
  if (error.code === 'BLOCK_IN_FLOW' && text[start] === '-') {
    return say(['a list with dashes stands inside [ ] or { }', 'separate the entries with commas instead']);
  }
  if (error.code === 'BLOCK_AS_IMPLICIT_KEY' && !/:\s/.test(text.slice(start, lineEnd))) {
    return say([
      'a value is written here, and yet the next line is indented as if it belonged to it',
      'indent the next line like its neighbours, or put quotes around a value of several lines',
    ]);
  }
  const known = WORDS[error.code];
  if (known) return say(known);
  const stray = /Unexpected flow-(?:seq|map)-end/.exec(about);
  if (stray)
    return say(['a bracket is closed here that was never opened', 'delete it, or add the opening one']);
  if (/at node end/.test(about)) {
    return say([
      'something stands here after the end of the value',
      'delete it, or put quotes around the whole value',
    ]);
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
