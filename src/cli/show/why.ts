/** Why a part or wire is suspected, or is not: its faults that fit, and for each that fell the reading that felled it. */
import type { Diagnosis, PartStatus } from '../../diagnosis/diagnosis-types.js';
import { suspectSeverities } from '../../report/severity-words.js';
import { paragraph, percent } from './page.js';

const STATUS: Readonly<Record<PartStatus['status'], string>> = {
  suspect: 'suspect',
  'not on its own': 'not on its own: no single fault of it explains the findings',
  assumed: 'assumed good, not tested',
  confirmed: 'confirmed as the cause',
  cleared: 'cleared: in no explanation of up to two faults',
};

/** The part or wire a name belongs to: itself, or the part of a point such as `X3.1h`. */
export function statusOf(diagnosis: Diagnosis, name: string): PartStatus | undefined {
  const exact = diagnosis.parts.find((one) => one.part.toLowerCase() === name.toLowerCase());
  const part = name.split(/[./:]/)[0]!.toLowerCase();
  return exact ?? diagnosis.parts.find((one) => one.part.toLowerCase() === part);
}

export function showWhy(diagnosis: Diagnosis, status: PartStatus): readonly string[] {
  const lines = [paragraph(`${status.label}: ${STATUS[status.status]}`)];
  for (const suspect of diagnosis.suspects) {
    if (!suspect.faults.some((fault) => fault.part === status.part)) continue;
    const severity = suspectSeverities(suspect, 'without place').join('; ');
    const words = suspect.faults.map((fault) => fault.label).join(', together with ');
    lines.push(
      paragraph(
        `fits all findings: ${words}${severity === '' ? '' : `; ${severity}`}${suspect.touched ? '; disturbed since' : ''}`,
        `${percent(suspect.share).padStart(6)}  `,
      ),
    );
  }
  for (const { faults, reason } of status.fallen)
    lines.push(
      paragraph(
        `${faults.map((fault) => fault.label).join(', together with ')}: #${reason.finding} would have been ${reason.prediction}; it was ${reason.reading}`,
        '     -  ',
      ),
    );
  if (lines.length === 1) lines.push('  No reading says anything about it yet.');
  return lines;
}
