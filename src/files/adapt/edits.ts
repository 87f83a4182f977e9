/**
 * Changes to the text of a circuit file by cutting in exactly where something changes, so that every comment, blank line and
 * habit of its writer stays as it was.
 */
import { pointer, type Ranges } from '../../circuit/diagnostic.js';
import { written } from '../../circuit/own/sketch.js';
import { wrap } from '../../report/layout.js';
import type { YamlValue } from '../yaml-source.js';

/** Where a comment is folded. */
const COLUMNS = 120;

interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

export class Edits {
  readonly #edits: Edit[] = [];

  constructor(
    readonly source: string,
    readonly value: YamlValue,
    readonly ranges: Ranges,
  ) {}

  /** The text with all changes made; they do not overlap. */
  get text(): string {
    const order = this.#edits
      .map((edit, i) => ({ ...edit, i }))
      .sort((a, b) => b.start - a.start || b.i - a.i);
    return order.reduce(
      (text, { start, end, text: put }) => `${text.slice(0, start)}${put}${text.slice(end)}`,
      this.source,
    );
  }

  /** What stands at a pointer in the document as it was. */
  at(path: readonly (string | number)[]): YamlValue | undefined {
    return path.reduce<YamlValue | undefined>((value, name) => {
      if (value === undefined || typeof value === 'string') return undefined;
      if (Array.isArray(value)) return value[Number(name)];
      return Object.hasOwn(value, name) ? value[name] : undefined;
    }, this.value);
  }

  /** Another key for the same entry. */
  renameKey(path: readonly (string | number)[], key: string): void {
    this.#replace(this.ranges.key(pointer(...path)), written(key));
  }

  /** Sets a scalar; the key is put in where it is missing. `raw`: as it stands, without quotes. */
  set(path: readonly (string | number)[], key: string, value: string, raw = false): void {
    const text = raw ? value : written(value);
    const old = this.at([...path, key]);
    if (old !== undefined) {
      const key_ = this.ranges.key(pointer(...path, key));
      const range = this.ranges.value(pointer(...path, key));
      // An empty value has the place of its key.
      if (old === '' && range.start === key_.start) this.#insert(this.#afterColon(key_.end), ` ${text}`);
      else this.#replace(range, text);
      return;
    }
    const { start, end } = this.ranges.value(pointer(...path));
    if (this.source[start] === '{') {
      const inside = this.source.slice(start + 1, end - 1);
      const at = start + 1 + inside.trimEnd().length;
      this.#insert(at, `${inside.trim() === '' ? '' : ', '}${key}: ${text}`);
    } else this.#insert(start, `${key}: ${text}\n${' '.repeat(this.#column(start))}`);
  }

  /** Another value for an item of a list. */
  setItem(path: readonly (string | number)[], value: string): void {
    this.#replace(this.ranges.value(pointer(...path)), written(value));
  }

  /** Takes a key out with its value; nothing happens where it is not there. */
  remove(path: readonly (string | number)[], key: string): void {
    if (this.at([...path, key]) === undefined) return;
    const from = this.ranges.key(pointer(...path, key)).start;
    const to = this.ranges.value(pointer(...path, key)).end;
    const group = this.ranges.value(pointer(...path));
    if (this.source[group.start] === '{') {
      const after = /^\s*,\s*/.exec(this.source.slice(to));
      const before = /,\s*$/.exec(this.source.slice(group.start, from));
      if (after !== null) this.#replace({ start: from, end: to + after[0].length }, '');
      else this.#replace({ start: from - (before?.[0].length ?? 0), end: to }, '');
      return;
    }
    const line = /[^\n]*\n?\s*/.exec(this.source.slice(to))![0];
    if (from === group.start) this.#replace({ start: from, end: to + line.length }, '');
    else
      this.#replace(
        { start: this.source.lastIndexOf('\n', from), end: to + line.replace(/\n\s*$/, '').length },
        '',
      );
  }

  /** A new entry at the end of a group, after a comment. */
  append(group: string, key: string, value: string, comment = ''): void {
    this.#appendTo(group, `${key}: ${value}`, comment, '');
  }

  /** A new item at the end of a list, after a comment. */
  appendItem(list: string, value: string, comment = ''): void {
    this.#appendTo(list, value, comment, '- ');
  }

  /** A comment before everything else. */
  head(comment: string): void {
    const start = this.source.startsWith('\uFEFF') ? 1 : 0;
    this.#insert(start, `${wrap(comment, COLUMNS, '# ').join('\n')}\n`);
  }

  #appendTo(group: string, line: string, comment: string, dash: string): void {
    const whole = this.ranges.value(pointer(group));
    const open = this.source[whole.start];
    if (open === '{' || open === '[') {
      const inside = this.source.slice(whole.start + 1, whole.end - 1);
      const at = whole.start + 1 + inside.trimEnd().length;
      this.#insert(at, `${inside.trim() === '' ? '' : ', '}${line}`);
      return;
    }
    const column =
      dash === ''
        ? this.#column(whole.start)
        : this.#column(this.source.lastIndexOf('-', this.#firstItem(group)));
    const indent = ' '.repeat(column);
    const newline = this.source.indexOf('\n', whole.end);
    const end = newline < 0 ? this.source.length : newline;
    const said = comment === '' ? '' : `\n${indent}# ${comment}`;
    this.#insert(end, `${said}\n${indent}${dash}${line}`);
  }

  #firstItem(list: string): number {
    return this.ranges.value(pointer(list, 0)).start;
  }

  #afterColon(from: number): number {
    return this.source.indexOf(':', from) + 1;
  }

  #column(offset: number): number {
    return offset - (this.source.lastIndexOf('\n', offset - 1) + 1);
  }

  #insert(at: number, text: string): void {
    this.#edits.push({ start: at, end: at, text });
  }

  #replace({ start, end }: { readonly start: number; readonly end: number }, text: string): void {
    this.#edits.push({ start, end, text });
  }
}
