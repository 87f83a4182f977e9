/** "Did you mean": the known name closest to one that was mistyped. */

/**
 * Optimal string alignment distance: insertions, deletions, exchanges and swapped neighbours, each counting one.
 * Damerau 1964, Levenshtein 1966. Stops early above `limit` and then returns `limit + 1`.
 */
export function distance(a: string, b: string, limit = Infinity): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const now = [row];
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1] ? 0 : 1;
      let best = Math.min(last[column]! + 1, now[column - 1]! + 1, last[column - 1]! + same);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        best = Math.min(best, before[column - 2]! + 1);
      }
      now.push(best);
    }
    if (Math.min(...now) > limit) return limit + 1;
    before = last;
    last = now;
  }
  return last[b.length]!;
}

/**
 * The known name nearest to `typed` (case aside), or undefined when none is near: at most one slip in three letters.
 * Among equals a name of the same length wins (two letters exchanged are likelier than one lost), then the first known one.
 */
export function nearest(typed: string, known: Iterable<string>): string | undefined {
  const wanted = typed.toLowerCase();
  if (wanted.length > 60) return undefined;
  let best: string | undefined;
  let least = Math.max(1, Math.floor(wanted.length / 3)) + 1;
  for (const name of known) {
    const away = distance(wanted, name.toLowerCase(), least);
    const better =
      away < least || (away === least && best?.length !== typed.length && name.length === typed.length);
    if (best === undefined ? away < least : better) {
      least = away;
      best = name;
    }
  }
  return best;
}

/** A mend sentence that names the nearest known name, or lists the known ones when none is near. */
export function didYouMean(typed: string, known: Iterable<string>, what: string): string {
  const names = [...known];
  const near = nearest(typed, names);
  if (near !== undefined) return `did you mean ${near}?`;
  if (names.length === 0) return `there is no ${what} in this file yet: add one`;
  const shown = names.slice(0, 12).join(', ');
  return `use one of: ${shown}${names.length > 12 ? ', …' : ''}`;
}
