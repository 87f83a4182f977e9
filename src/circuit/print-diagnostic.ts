/** The one printer of diagnostics: the only code that turns offsets into line and column. */
import type { Diagnostic } from './diagnostic.js';
import { visible } from './visible.js';

/** Widest excerpt of a line, in characters. */
const WIDTH = 76;
/** More mistakes than this are counted, not shown: nobody mends more before trying again. */
const MOST_SHOWN = 20;

/** Line and column of an offset, both from 1; a column counts characters (code points). */
export function placeOf(text: string, offset: number): { readonly line: number; readonly column: number } {
  const before = text.slice(0, Math.max(0, Math.min(offset, text.length)));
  const start = before.lastIndexOf('\n') + 1;
  let line = 1;
  for (let at = before.indexOf('\n'); at >= 0; at = before.indexOf('\n', at + 1)) line++;
  let column = 1;
  for (let at = start; at < before.length; at++) {
    // The second half of a surrogate pair belongs to the character before; a byte order mark is no character.
    const pair = /[\uDC00-\uDFFF]/.test(before[at]!) && at > start && /[\uD800-\uDBFF]/.test(before[at - 1]!);
    if (!pair && !(at === 0 && before[at] === '\uFEFF')) column++;
  }
  return { line, column };
}

/**
 * One diagnostic as lines without line ends:
 *
 *     van.yaml:12:9: error: there is no place called “fuse bx”
 *       F4: {type: fuse, rating: 10 A, place: fuse bx}
 *                                             ^^^^^^^
 *       Mend: did you mean fuse box?
 */
export function printDiagnostic(text: string, name: string, diagnostic: Diagnostic): string[] {
  const { range, severity, message, mend } = diagnostic;
  const shownName = visible(name);
  const what = `${severity}: ${visible(message)}`;
  const how = `  Mend: ${visible(mend)}`;
  if (text === '') return [`${shownName}: ${what}`, how];
  const { line, column } = placeOf(text, range.start);
  return [`${shownName}:${line}:${column}: ${what}`, ...excerpt(text, range.start, range.end), how];
}

/** The first 20, one after the other, errors before advice, with the number of errors at the end when there are several. */
export function printDiagnostics(text: string, name: string, diagnostics: readonly Diagnostic[]): string[] {
  const errors = diagnostics.filter((one) => one.severity === 'error');
  const shown = (diagnostics.length > MOST_SHOWN && errors.length > 0 ? errors : diagnostics).slice(
    0,
    MOST_SHOWN,
  );
  const lines = shown.flatMap((one) => printDiagnostic(text, name, one));
  if (errors.length > 1) {
    const more = errors.length > shown.length ? `; the first ${shown.length} are shown` : '';
    lines.push(`${errors.length} errors in ${visible(name)}${more}`);
  }
  return lines;
}

function excerpt(text: string, start: number, end: number): string[] {
  const from = text.lastIndexOf('\n', start - 1) + 1;
  const newline = text.indexOf('\n', start);
  const to = newline < 0 ? text.length : newline;
  // Only the neighbourhood is made visible: a line may be a mebibyte long.
  const left = Math.max(from, start - WIDTH);
  const right = Math.min(to, start + 2 * WIDTH);
  let before = visible(text.slice(left, start).replace(/^\uFEFF/, ''));
  const marked = visible(text.slice(start, Math.min(Math.max(end, start), right)).replace(/\r$/, ''));
  let after = visible(text.slice(Math.min(Math.max(end, start), right), right).replace(/\r$/, ''));
  const indent = left === from ? /^ */.exec(before)![0].length : 0;
  before = before.slice(indent);
  const caretWidth = Math.max(1, Math.min(columns(marked), WIDTH / 2));
  const room = WIDTH - caretWidth;
  if ([...before].length > room * 0.7 || left > from) {
    before = `…${[...before].slice(-Math.floor(room * 0.6)).join('')}`;
  }
  const shown = [...`${before}${marked}${after}`];
  after = shown.length > WIDTH || right < to ? `${shown.slice(0, WIDTH - 1).join('')}…` : shown.join('');
  return [`  ${after}`, `  ${' '.repeat(columns(before))}${'^'.repeat(caretWidth)}`];
}

/** Terminal columns of a text: East Asian wide characters and most emoji take two. Combining marks take none. */
function columns(text: string): number {
  let width = 0;
  for (const character of text) {
    if (/\p{Mn}|\p{Me}/u.test(character)) continue;
    const code = character.codePointAt(0)!;
    const wide =
      (code >= 0x1100 && code <= 0x115f) ||
      (code >= 0x2e80 && code <= 0xa4cf) ||
      (code >= 0xac00 && code <= 0xd7a3) ||
      (code >= 0xf900 && code <= 0xfaff) ||
      (code >= 0xfe30 && code <= 0xfe6f) ||
      (code >= 0xff00 && code <= 0xff60) ||
      (code >= 0xffe0 && code <= 0xffe6) ||
      (code >= 0x1f300 && code <= 0x1faff) ||
      (code >= 0x20000 && code <= 0x3fffd);
    width += wide ? 2 : 1;
  }
  return width;
}
