/** Where typed lines come from: a person at a terminal, or a script. The conversation does not care which. */

export interface Asker {
  /** The next line, trimmed; undefined when there are no more. Throws Interrupted on Ctrl-C. */
  ask(message: string): Promise<string | undefined>;
  /** A person sits there: questions may be asked that a script would not know of. */
  readonly person: boolean;
}

/** Ctrl-C. What was recorded is safe. */
export class Interrupted extends Error {
  override readonly name = 'Interrupted';
}

/** Answers from a list of lines, each shown as if it had been typed. `#` lines and blank ones are passed over. */
export function scriptAsker(
  lines: readonly string[],
  show: (text: string) => void,
): Asker & { readonly line: number } {
  let next = 0;
  return {
    person: false,
    /** Number of the line given last, from 1. */
    get line() {
      return next;
    },
    ask(message) {
      while (next < lines.length) {
        const line = lines[next++]!.trim();
        if (line === '' || line.startsWith('#')) continue;
        show(`${message} ${line}`);
        return Promise.resolve(line);
      }
      return Promise.resolve(undefined);
    },
  };
}
