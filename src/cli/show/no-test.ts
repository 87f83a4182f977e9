/** What to do when no test is worth its minutes. */
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { paragraph } from './page.js';

/** Repairs with less than this share are not worth trying first. */
const WORTH_TRYING = 0.05;
/** Money that weighs as much as a minute, for the order of trying only; common practice, no source. */
const MONEY_PER_MINUTE = 1;

/** The cheapest likely repair first, said to be a try. */
export function showNoTest({ groups, abnormal }: Diagnosis): readonly string[] {
  if (!abnormal || groups.length < 2) return ['No further test is suggested; any line may follow.'];
  const likely = groups.filter(({ share }) => share >= WORTH_TRYING);
  const cost = ({ repair, share }: (typeof groups)[number]) =>
    (repair.minutes + repair.price / MONEY_PER_MINUTE) / share;
  const order = [...likely].sort((a, b) => cost(a) - cost(b));
  return [
    paragraph(
      'No reachable test tells these apart. Look at them closely; then the cheapest first, and repeat the failed condition (a try, not a proof):',
    ),
    ...order
      .slice(0, 4)
      .map(({ repair }) => paragraph(`${repair.how} (${repair.minutes} min)`, '  - ', '    ')),
  ];
}
