/** What is still suspected, by repair: a mechanic chooses between repairs, not between joints. */
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { faultWords } from '../../report/cause.js';
import { paragraph, percent } from './page.js';

/** @param most repairs shown, the likeliest first; `Infinity` also tells which faults each of them mends */
export function showSuspects(diagnosis: Diagnosis, most = 5): readonly string[] {
  const { groups, paired, pairsExamined } = diagnosis;
  if (!diagnosis.abnormal)
    return [
      paragraph(
        'Nothing recorded so far is out of order. Say what fails, and in which condition: fails H1 when CONTROL POSITION.',
      ),
    ];
  if (groups.length === 0) return nothingFits(diagnosis);
  const head = paired
    ? `No single fault explains all findings. Pairs that do (${pairsExamined.done} of ${pairsExamined.of} pairs tried):`
    : `Suspects left, by repair (${groups.length}):`;
  const lines = [paragraph(head)];
  for (const { repair, suspects, share } of groups.slice(0, most)) {
    lines.push(
      paragraph(`${repair.how} (${repair.minutes} min)`, `${percent(share).padStart(6)}  `, ' '.repeat(10)),
    );
    const confirmed = suspects.some((one) => one.confirmed);
    const touched = suspects.some((one) => one.touched);
    if (confirmed) lines.push('          CONFIRMED');
    else if (touched) lines.push('          disturbed since the complaint was last there');
    if (most === Infinity || groups.length === 1)
      for (const words of new Set(suspects.map(faultWords))) lines.push(paragraph(words, ' '.repeat(10)));
  }
  if (groups.length > most) {
    const rest = groups.slice(most).reduce((sum, group) => sum + group.share, 0);
    lines.push(`${percent(rest).padStart(6)}  ${groups.length - most} more (all of them: suspects)`);
  }
  return lines;
}

/** Repairs with less than this share are not worth trying first. */
const WORTH_TRYING = 0.05;
/** Money that weighs as much as a minute, for the order of trying only; common practice, no source. */
const MONEY_PER_MINUTE = 1;

/** What to do when no test is worth its minutes: the cheapest likely repair first, said to be a try. */
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

/** What is left to believe when no fault in the drawing explains the readings. */
export function nothingFits(diagnosis: Diagnosis): readonly string[] {
  return [
    'Nothing in this drawing explains all the readings. What remains:',
    ...diagnosis.open.map(({ what, advice }) => paragraph(`${what}: ${advice}`, '  - ', '    ')),
  ];
}
