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

/** What is left to believe when no fault in the drawing explains the readings. */
export function nothingFits(diagnosis: Diagnosis): readonly string[] {
  return [
    'Nothing in this drawing explains all the readings. What remains:',
    ...diagnosis.open.map(({ what, advice }) => paragraph(`${what}: ${advice}`, '  - ', '    ')),
  ];
}
