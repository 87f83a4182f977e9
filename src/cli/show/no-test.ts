/** What to do when no test is worth its minutes. */
import type { Alike, Diagnosis } from '../../diagnosis/diagnosis-types.js';
import type { Circuit } from '../../circuit/circuit.js';
import { repairMinutes } from '../../planning/costs-of.js';
import { showAlike } from './around.js';
import { paragraph } from './page.js';

/** Repairs with less than this share are not worth trying first. */
const WORTH_TRYING = 0.05;

/**
 * Where to look, then the cheapest likely repair first, said to be a try.
 * @param alike groups that no reachable test tells apart
 */
export function showNoTest(
  circuit: Circuit,
  { groups, abnormal }: Diagnosis,
  alike: readonly Alike[],
): readonly string[] {
  if (!abnormal || groups.length < 2) return ['No further test is suggested; any line may follow.'];
  const likely = groups.filter(({ share }) => share >= WORTH_TRYING);
  const cost = ({ repair, share }: (typeof groups)[number]) => repairMinutes(circuit, repair) / share;
  const order = [...likely].sort((a, b) => cost(a) - cost(b));
  return [
    ...showAlike(alike.slice(0, 1)),
    paragraph(
      'No test is worth its minutes now. Look closely; then the cheapest first, and repeat the failed condition (a try, not a proof):',
    ),
    ...order
      .slice(0, 4)
      .map(({ repair }) => paragraph(`${repair.how} (${repair.minutes} min)`, '  - ', '    ')),
  ];
}
