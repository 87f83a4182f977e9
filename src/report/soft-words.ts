/** Soft evidence and assumptions in words, kept apart from what was measured: they move shares and rule nothing out. */
import type { FaultInfo, SoftNote, Suspect } from '../diagnosis/diagnosis-types.js';
import { few, percent } from './layout.js';
import { siteWords } from './severity-words.js';

/** A share that soft evidence moves by less than this is not worth a word. */
export const NOTABLE = 0.1;

/** "by measurements alone 40 %"; undefined where soft evidence hardly moves the share. */
export function measuredWords(
  suspects: readonly Pick<Suspect, 'share' | 'measuredShare'>[],
): string | undefined {
  const share = suspects.reduce((sum, one) => sum + one.share, 0);
  const measured = suspects.reduce((sum, one) => sum + one.measuredShare, 0);
  return Math.abs(share - measured) < NOTABLE ? undefined : `by measurements alone ${percent(measured)}`;
}

/** "#5 speaks for it: H1 told off". One line a finding, the strongest first. */
export function softWords(suspects: readonly Pick<Suspect, 'soft'>[]): readonly string[] {
  const notes = new Map<string, SoftNote>();
  for (const note of suspects.flatMap(({ soft }) => soft)) {
    const key = JSON.stringify([note.finding, note.factor > 1, note.words]);
    const known = notes.get(key);
    if (known === undefined || strength(note) > strength(known)) notes.set(key, note);
  }
  return [...notes.values()]
    .filter(({ factor }) => factor !== 1)
    .sort((a, b) => strength(b) - strength(a) || a.finding - b.finding)
    .map(({ finding, factor, words }) => `#${finding} speaks ${factor > 1 ? 'for' : 'against'} it: ${words}`);
}

function strength({ factor }: SoftNote): number {
  return Math.abs(Math.log(factor));
}

/** What an assumption takes away, part by part: "F4: blown, and 2 more would still fit". */
export function assumedAwayWords(assumedAway: readonly FaultInfo[]): readonly string[] {
  const byPart = new Map<string, FaultInfo[]>();
  for (const fault of assumedAway) byPart.set(fault.part, [...(byPart.get(fault.part) ?? []), fault]);
  return [...byPart].map(
    ([part, faults]) =>
      `${part}, taken as good without a test, would still fit: ${few(
        faults.map(({ label }) => label),
        3,
        '; ',
      )}`,
  );
}

/** Places of faults, the first few: "pin 1 of connector X3, wire W5 and 3 more". */
export function placesOf(faults: readonly FaultInfo[], most = 3): string {
  return few([...new Set(faults.map(siteWords))], most);
}
