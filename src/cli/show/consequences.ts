/** What a new event changed: who is no longer suspect on their own, and by which reading against which prediction. */
import type { Diagnosis, PartStatus, Reason } from '../../diagnosis/diagnosis-types.js';
import { listWords } from '../../report/layout.js';
import { nothingFits } from './open.js';
import { few, paragraph } from './page.js';

/** Reasons shown at once; the rest is under `why`. */
const MOST = 4;

/** @param numbers of the events just recorded */
export function showConsequences(
  before: Diagnosis,
  after: Diagnosis,
  numbers: readonly number[],
): readonly string[] {
  const lines: string[] = [];
  const was = new Map(before.parts.map((part) => [part.part, part]));
  const gone = after.parts.filter((part) => isSuspect(was.get(part.part)) && !isSuspect(part));
  const back = after.parts.filter((part) => !isSuspect(was.get(part.part)) && isSuspect(part));
  // Who fell says more than a general sentence; where nobody fell, the sentence says why not.
  if (gone.length === 0)
    for (const sense of after.findings.filter((one) => numbers.includes(one.number)))
      if (sense.provedWhat !== '') lines.push(paragraph(sense.provedWhat, `#${sense.number}: `, '  '));
  if (gone.length > 0) {
    const assumed = gone.filter((part) => part.status === 'assumed');
    const fallen = gone.filter((part) => part.status !== 'assumed');
    if (assumed.length > 0) lines.push(paragraph(`Assumed good, not tested: ${ids(assumed)}`));
    if (fallen.length > 0) lines.push(paragraph(`No longer suspect on their own: ${ids(fallen)}`));
    lines.push(...reasonsOf(fallen, numbers));
  }
  if (back.length > 0) lines.push(paragraph(`Suspect again: ${ids(back)}`));
  if (before.fits && !after.fits) lines.push(...nothingFits(after));
  return lines;
}

function isSuspect(part: PartStatus | undefined): boolean {
  return part?.status === 'suspect' || part?.status === 'confirmed';
}

function ids(parts: readonly PartStatus[]): string {
  return listWords(parts.map((part) => part.part));
}

/** Parts that fell by the same reading and prediction stand together. */
function reasonsOf(parts: readonly PartStatus[], numbers: readonly number[]): readonly string[] {
  const together = new Map<string, { readonly reason: Reason; readonly parts: Set<string> }>();
  for (const part of parts) {
    const reason = (part.fallen.find((one) => numbers.includes(one.reason.finding)) ?? part.fallen.at(-1))
      ?.reason;
    if (reason === undefined) continue;
    const key = JSON.stringify(reason);
    const entry = together.get(key) ?? { reason, parts: new Set<string>() };
    entry.parts.add(part.part);
    together.set(key, entry);
  }
  const all = [...together.values()].sort((a, b) => b.parts.size - a.parts.size);
  const lines = all
    .slice(0, MOST)
    .map(({ reason, parts: fell }) =>
      paragraph(
        `${few([...fell], 6)}: would have given ${reason.prediction}; it was ${reason.reading} (#${reason.finding})`,
        '  ',
        '    ',
      ),
    );
  if (all.length > MOST) lines.push(`  ${all.length - MOST} more reasons; to see one: why PART`);
  return lines;
}
