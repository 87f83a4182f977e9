/** A place in a typed line: what is read, what is left, and where to point when something is missing. */
import type { NameList } from '../names.js';
import type { Token } from './tokens.js';

export class Cursor {
  private next = 0;

  /**
   * `end`: offset just after the last word that belongs to this part of the line.
   * `start`: offset of the word that opens the statement, which may lie before the words left here.
   */
  constructor(
    readonly line: string,
    readonly tokens: readonly Token[],
    readonly end: number,
    readonly start: number,
  ) {}

  get done(): boolean {
    return this.next >= this.tokens.length;
  }

  /** Offset of the word to come, or of the end of the line. */
  get at(): number {
    return this.tokens[this.next]?.at ?? this.end;
  }

  peek(ahead = 0): Token | undefined {
    return this.tokens[this.next + ahead];
  }

  take(): Token | undefined {
    return this.tokens[this.next++];
  }

  skip(count: number): void {
    this.next += count;
  }

  /** Passes over any of these words. */
  skipNoise(words: readonly string[]): void {
    while (!this.done && words.includes(this.peek()!.lower)) this.next++;
  }

  /** The longest run of coming words that is a known name, taken; names may hold spaces. Undefined takes nothing. */
  takeName(names: NameList): string | undefined {
    for (let count = Math.min(8, this.tokens.length - this.next); count > 0; count--) {
      const words = this.tokens.slice(this.next, this.next + count);
      const name = names.get(words.map((token) => token.lower).join(' '));
      if (name === undefined) continue;
      this.next += count;
      return name;
    }
    return undefined;
  }

  /** The words still to come, as a line part of their own. */
  remaining(): Cursor {
    return new Cursor(this.line, this.tokens.slice(this.next), this.end, this.start);
  }

  /** Everything left as one text, with single spaces and without noise signs; taken. */
  takeWords(): string {
    const words = this.tokens.slice(this.next).map((token) => token.text);
    this.next = this.tokens.length;
    return words.join(' ');
  }

  /** Everything left exactly as typed; taken. */
  takeRaw(): string {
    const text = this.line.slice(this.at, this.end).trim();
    this.next = this.tokens.length;
    return text;
  }

  /** The statement as typed up to this offset, trimmed. */
  textBefore(at: number): string {
    return this.line.slice(this.start, at).replace(/[\s,;=:]+$/, '');
  }
}
