/** Lines for paper and plain terminals: folded to ASCII where asked, broken at the width. */

const FOLDS: readonly (readonly [RegExp, string])[] = [
  [/[\u2018\u2019\u201a\u2032]/g, "'"],
  [/[\u201c\u201d\u201e]/g, '"'],
  [/[\u2010-\u2015\u2212]/g, '-'],
  [/\u2026/g, '...'],
  [/[\u2126\u03a9]/g, 'ohm'],
  [/[\u00b5\u03bc]/g, 'u'],
  [/\u00b0/g, ' deg'],
  [/\u00b1/g, '+/-'],
  [/\u00d7/g, 'x'],
  [/\u00b2/g, '2'],
  [/\u2265/g, '>='],
  [/\u2264/g, '<='],
  [/\u2248/g, '~'],
  [/\u221e/g, 'open'],
  [/\u2192/g, '->'],
  [/[\u2022\u00b7]/g, '*'],
  [/\u00df/g, 'ss'],
  [/\u00e6/g, 'ae'],
  [/\u00f8/g, 'o'],
];

/** For terminals and printers that know only ASCII: accents dropped, the trade's signs spelled, the rest `?`. */
export function toAscii(text: string): string {
  let folded = text;
  for (const [sign, plain] of FOLDS) folded = folded.replace(sign, plain);
  return folded
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^\n\x20-\x7e]/gu, '?');
}

/** Breaks one paragraph into lines of at most `width`; a word longer than the line is cut, a share stays with its sign. */
export function wrap(text: string, width: number, first = '', rest = first): readonly string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(/\s+(?![%])/).filter((piece) => piece !== '')) {
    let piece = word;
    if (!empty && line.length + 1 + piece.length > width) {
      lines.push(line);
      [line, empty] = [rest, true];
    }
    while (line.length + (empty ? 0 : 1) + piece.length > width) {
      const room = Math.max(1, width - line.length);
      lines.push(line + piece.slice(0, room));
      piece = piece.slice(room);
      [line, empty] = [rest, true];
    }
    line += (empty ? '' : ' ') + piece;
    empty = false;
  }
  lines.push(line);
  return lines;
}

/** "a", "a and b", "a, b and c". */
export function listWords(items: readonly string[], last = 'and'): string {
  return items.length < 2
    ? (items[0] ?? '')
    : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;
}

/** A share of 0 to 1 for a person: "62 %", "<1 %". */
export function percent(share: number): string {
  const whole = Math.round(share * 100);
  return `${whole === 0 && share > 0 ? '<1' : whole} %`;
}

/** The first few, and how many more there are. */
export function few(items: readonly string[], most: number, between = ', '): string {
  const more = items.length - most;
  const shown = items.slice(0, most).join(between);
  return more > 0 ? `${shown} and ${more} more` : shown;
}
