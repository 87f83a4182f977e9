/** A typed line cut into words. Commas, semicolons, colons and equals signs between words are noise; `11,4` is one word. */

export interface Token {
  readonly text: string;
  readonly lower: string;
  /** Offset in the line. */
  readonly at: number;
}

/** Words with their places. `/` stays a word of its own only where it stands alone. */
export function tokensOf(line: string, from = 0): readonly Token[] {
  const tokens: Token[] = [];
  // A comma between digits is a decimal comma; every other comma, `=`, `;` and a colon before a space parts words.
  const word = /(?:\d,(?=\d)|:(?!\s|$)|[^\s,;=:])+/gy;
  for (let at = from; at < line.length;) {
    word.lastIndex = at;
    const found = word.exec(line);
    if (!found) {
      at += 1;
      continue;
    }
    tokens.push({ text: found[0], lower: found[0].toLowerCase(), at });
    at += found[0].length;
  }
  return tokens;
}
