/** What is still suspected, by repair: a mechanic chooses between repairs, not between joints. */
import type { Diagnosis, Suspect } from '../../diagnosis/diagnosis-types.js';
import { faultWords } from '../../report/cause.js';
import { suspectSeverities } from '../../report/severity-words.js';
import { measuredWords, softWords } from '../../report/soft-words.js';
import { nothingFits, showOpen } from './open.js';
import { paragraph, percent } from './page.js';

const UNDER = ' '.repeat(10);

/** @param most repairs shown, the likeliest first; `Infinity` also tells which faults each of them mends */
export function showSuspects(diagnosis: Diagnosis, most = 5): readonly string[] {
  const { groups } = diagnosis;
  if (!diagnosis.abnormal)
    return [
      paragraph(
        'Nothing recorded so far is out of order. Say what fails, and in which condition: fails H1 when CONTROL POSITION.',
      ),
    ];
  if (groups.length === 0) return nothingFits(diagnosis);
  const all = most === Infinity;
  const lines = [paragraph(headOf(diagnosis))];
  for (const [place, { repair, suspects, share }] of groups.slice(0, most).entries()) {
    lines.push(paragraph(`${repair.how} (${repair.minutes} min)`, `${percent(share).padStart(6)}  `, UNDER));
    const marks = marksOf(suspects);
    if (all || groups.length === 1) lines.push(...eachOf(suspects));
    else if (place === 0) lines.push(...suspectSeverities(suspects[0]!, 'with place').map(under));
    lines.push(...marks.map(under));
  }
  if (groups.length > most) {
    const rest = groups.slice(most).reduce((sum, group) => sum + group.share, 0);
    lines.push(`${percent(rest).padStart(6)}  ${groups.length - most} more (all of them: suspects)`);
  }
  return [...lines, ...showOpen(diagnosis)];
}

function headOf({ suspects, groups, paired, pairsExamined }: Diagnosis): string {
  if (!paired) return `Suspects left, by repair (${groups.length}):`;
  const most = Math.max(...suspects.map(({ faults }) => faults.length));
  if (most > 2)
    return 'No one fault and no two explain all findings. Three together that do, grown from pairs that nearly fit (not all threes were tried):';
  return `No single fault explains all findings. Two together that do (${pairsExamined.done} of ${pairsExamined.of} pairs tried):`;
}

/** Faults of one repair that are alike in words and severity stand once. */
function eachOf(suspects: readonly Suspect[]): readonly string[] {
  const words = suspects.map((suspect) =>
    [faultWords(suspect), ...suspectSeverities(suspect, 'without place')].join('; '),
  );
  return [...new Set(words)].map(under);
}

function marksOf(suspects: readonly Suspect[]): readonly string[] {
  const measured = measuredWords(suspects);
  return [
    ...(suspects.some((one) => one.confirmed) ? ['CONFIRMED'] : []),
    ...(suspects.some((one) => one.touched && !one.confirmed)
      ? ['disturbed since the complaint was last there']
      : []),
    ...(suspects.every((one) => one.course === 'comes and goes')
      ? ['fits only as a fault that comes and goes']
      : []),
    ...(measured === undefined
      ? []
      : [`${measured}; the rest is not proof: ${softWords(suspects).join('; ')}`]),
  ];
}

function under(text: string): string {
  return paragraph(text, UNDER, `${UNDER}  `);
}
