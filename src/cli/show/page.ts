/** Lines for a screen: folded at its width, so that a word is never cut by a terminal. */
import { wrap } from '../../report/layout.js';

export { few, percent } from '../../report/layout.js';

export const WIDTH = 80;

/** One paragraph; `rest` indents the lines after the first. */
export function paragraph(text: string, first = '', rest = ' '.repeat(first.length)): string {
  return wrap(text, WIDTH, first, rest).join('\n');
}
