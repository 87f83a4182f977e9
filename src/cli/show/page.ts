/** Lines for a screen: folded at its width, so that a word is never cut by a terminal. */
import { wrap } from '../../report/layout.js';

export const WIDTH = 80;

/** One paragraph; `rest` indents the lines after the first. */
export function paragraph(text: string, first = '', rest = ' '.repeat(first.length)): string {
  return wrap(text, WIDTH, first, rest).join('\n');
}

export function percent(share: number): string {
  const whole = Math.round(share * 100);
  return `${whole === 0 && share > 0 ? '<1' : whole} %`;
}

/** The first few, and how many more there are. */
export function few(items: readonly string[], most: number): string {
  const more = items.length - most;
  return more > 0 ? `${items.slice(0, most).join(', ')} and ${more} more` : items.join(', ');
}
