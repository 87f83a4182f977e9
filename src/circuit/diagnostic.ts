/**
 * What the program says about a mistake in a file: where, what is wrong in a mechanic's words, and how to mend it.
 * Diagnostics are returned, never thrown; one printer (print-diagnostic.ts) turns their offsets into line and column.
 */

export type DiagnosticCode =
  // The file as such.
  | 'cannot-read'
  | 'too-big'
  | 'bad-encoding'
  | 'control-character'
  // The way it is written down.
  | 'bad-yaml'
  | 'too-deep'
  | 'not-used-here'
  | 'duplicate-key'
  | 'unknown-key'
  | 'missing-key'
  | 'wrong-kind'
  | 'bad-value'
  | 'bad-quantity'
  | 'out-of-range'
  // What it says.
  | 'unknown-name'
  | 'duplicate-id'
  | 'no-battery'
  | 'wired-to-nothing'
  | 'two-wires-on-one'
  | 'wire-to-itself'
  | 'no-way-to-ground'
  | 'no-way-to-battery'
  | 'contradiction'
  // Advice.
  | 'odd-rating'
  | 'small-fuse'
  | 'other-voltage'
  | 'unused'
  // Advice that takes the whole network (planning/advice).
  | 'unfused-wire'
  | 'thin-wire'
  | 'thin-for-fuse'
  | 'alike-faults'
  | 'no-witness';

/** Offsets into the text, in UTF-16 units; `end` is exclusive. */
export interface Range {
  readonly start: number;
  readonly end: number;
}

export interface Diagnostic {
  readonly code: DiagnosticCode;
  /** `advice` never stops a file from loading. */
  readonly severity: 'error' | 'advice';
  readonly range: Range;
  /** What is wrong. One sentence without full stop; names from the file appear as written. */
  readonly message: string;
  /** What to do now. One sentence without full stop. */
  readonly mend: string;
}

/** Where the values of a document stand in its text. Pointers are JSON Pointers (RFC 6901): `/parts/H1/watts`, `` = all. */
export interface Ranges {
  /** The key of a mapping entry; for list items and the whole document the same as `value`. Unknown = nearest parent. */
  key(pointer: string): Range;
  /** The value. Unknown = nearest parent. */
  value(pointer: string): Range;
}

/** Joins names into a JSON Pointer. */
export function pointer(...names: readonly (string | number)[]): string {
  return names.map((name) => `/${String(name).replaceAll('~', '~0').replaceAll('/', '~1')}`).join('');
}

/** In the order of the text, each mistake once. */
export function sorted(diagnostics: readonly Diagnostic[]): Diagnostic[] {
  const seen = new Set<string>();
  return [...diagnostics]
    .sort(
      (a, b) =>
        a.range.start - b.range.start ||
        a.range.end - b.range.end ||
        (a.message < b.message ? -1 : a.message > b.message ? 1 : 0),
    )
    .filter((one) => {
      const same = `${one.range.start} ${one.message}`;
      if (seen.has(same)) return false;
      seen.add(same);
      return true;
    });
}
