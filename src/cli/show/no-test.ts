/** What to do when no test is worth its minutes. */
import type { Alike, Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { showAlike } from './around.js';
import { paragraph } from './page.js';

/** Repairs with less than this share are not worth trying first. */
const WORTH_TRYING = 0.05;
/** Money that weighs as much as a minute, for the order of trying only; common practice, no source. */
const MONEY_PER_MINUTE = 1;

/**
 * Where to look, then the cheapest likely repair first, said to be a try.
 * @param alike groups that no reachable test tells apart
 */
export function showNoTest({ groups, abnormal }: Diagnosis, alike: readonly Alike[]): readonly string[] {
  if (!abnormal || groups.length < 2) return ['No further test is suggested; any line may follow.'];
  const likely = groups.filter(({ share }) => share >= WORTH_TRYING);
  const cost = ({ repair, share }: (typeof groups)[number]) =>
    (repair.minutes + repair.price / MONEY_PER_MINUTE) / share;
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
