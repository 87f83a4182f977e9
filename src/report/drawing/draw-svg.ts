/** Placeholder removed below. */
import type { Marks } from './marks.js';
import type { Plan } from '../../circuit/downhill.js';
import type { Standing } from './standing.js';
export async function drawSvg(
  _plan: Plan,
  _options: { marks?: Marks; standing?: Standing },
): Promise<string> {
  return '';
}
