/**
 * Why a part or wire is suspected, or is not: for each of its faults that fits, what it explains, and for each that fell the
 * reading that felled it. One line a reason: finding, prediction, reading.
 */
import type { Circuit } from '../../circuit/circuit.js';
import { weakSpotIn } from '../../circuit/weak-spot.js';
import type { Diagnosis, PartStatus, Suspect } from '../../diagnosis/diagnosis-types.js';
import { faultWords } from '../../report/cause.js';
import { suspectSeverities } from '../../report/severity-words.js';
import { measuredWords, softWords } from '../../report/soft-words.js';
import { hiddenWords } from '../../report/symptom-words.js';
import { paragraph, percent } from './page.js';

const STATUS: Readonly<Record<PartStatus['status'], string>> = {
  suspect: 'suspect',
  'not on its own': 'not on its own: no single fault of it explains the findings',
  assumed: 'assumed good, not tested',
  confirmed: 'confirmed as the cause',
  cleared: 'cleared: in no explanation of up to two faults',
};

/** Suspects of one part told in full; those beyond are only counted. */
const MOST = 6;
const UNDER = '        ';

/** The part or wire a name belongs to: itself, or the part of a point such as `X3.1h`. */
export function statusOf(diagnosis: Diagnosis, name: string): PartStatus | undefined {
  const exact = diagnosis.parts.find((one) => one.part.toLowerCase() === name.toLowerCase());
  const part = name.split(/[./:]/)[0]!.toLowerCase();
  return exact ?? diagnosis.parts.find((one) => one.part.toLowerCase() === part);
}

/** @param circuit the drawing, for what it says of weak spots */
export function showWhy(circuit: Circuit, diagnosis: Diagnosis, status: PartStatus): readonly string[] {
  const own = diagnosis.suspects.filter(({ faults }) => faults.some((fault) => fault.part === status.part));
  const word = diagnosis.abnormal ? 'fits all findings' : 'possible';
  const lines = own.slice(0, MOST).flatMap((suspect) => fitting(suspect, word));
  if (own.length > MOST) {
    const rest = own.slice(MOST).reduce((sum, { share }) => sum + share, 0);
    lines.push(`${percent(rest).padStart(6)}  ${own.length - MOST} more that fit with a fault of it`);
  }
  for (const fault of diagnosis.assumedAway.filter(({ part }) => part === status.part))
    lines.push(
      paragraph(`would still fit, had it not been taken as good: ${fault.label}`, '        ', UNDER),
    );
  for (const { faults, reason } of status.fallen)
    lines.push(
      paragraph(
        `${faults.map((fault) => fault.label).join(', together with ')}: #${reason.finding} would have been ${reason.prediction}; it was ${reason.reading}`,
        '     -  ',
      ),
    );
  for (const hidden of diagnosis.hidden.filter(({ faults }) =>
    faults.some(({ part }) => part === status.part),
  ))
    lines.push(paragraph(hiddenWords(hidden), '        ', UNDER));
  if (lines.length === 0) lines.push('  No reading says anything about it yet.');
  const weak = weakSpotIn(circuit, status.part);
  if (weak !== undefined)
    lines.push(
      paragraph(
        `known weak spot, ${weak.times} times as likely before any reading: ${weak.why}`,
        '        ',
        UNDER,
      ),
    );
  return [paragraph(`${status.label}: ${STATUS[status.status]}`), ...lines];
}

/** "fits #7 and #12 only at the edge of what can be". */
function edgeWords(findings: readonly number[]): string {
  const numbers = findings.map((number) => `#${number}`);
  const last = numbers.pop()!;
  return `fits ${numbers.length === 0 ? last : `${numbers.join(', ')} and ${last}`} only at the edge of what can be`;
}

function fitting(suspect: Suspect, word: string): readonly string[] {
  const notes = [
    ...suspectSeverities(suspect, 'without place'),
    ...(suspect.course === 'comes and goes' ? ['only as a fault that comes and goes'] : []),
    ...(suspect.away ? ['and has gone since it blew its fuse'] : []),
    ...(suspect.touched ? ['disturbed since'] : []),
    ...[measuredWords([suspect])].filter((words) => words !== undefined),
  ];
  return [
    paragraph(
      `${word}: ${[faultWords(suspect), ...notes].join('; ')}`,
      `${percent(suspect.share).padStart(6)}  `,
    ),
    ...suspect.explains.map(({ finding, prediction, reading, healthy }) =>
      paragraph(
        `#${finding} was ${reading}; with this fault ${prediction}; healthy ${healthy}`,
        `${UNDER}  `,
        `${UNDER}    `,
      ),
    ),
    ...(suspect.atEdge === undefined
      ? []
      : [paragraph(`counts for less: ${edgeWords(suspect.atEdge)}`, `${UNDER}  `, `${UNDER}    `)]),
    ...softWords([suspect]).map((words) => paragraph(`not proof: ${words}`, `${UNDER}  `, `${UNDER}    `)),
  ];
}
