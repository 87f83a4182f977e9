/** What stands around the suspects: open fuses and breakers as symptoms, what cannot show yet, and what was only assumed. */
import type { Alike, Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { assumedAwayWords } from '../../report/soft-words.js';
import { alikeWords, hiddenWords, openedWords } from '../../report/symptom-words.js';
import { paragraph } from './page.js';

/** Share from which on the leader's repair is near enough that what it hides is told without being asked. */
const NEAR = 0.5;

/** @param most of each kind; `Infinity` for the answer to `suspects` */
export function showAround(
  { blown, hidden, assumedAway, groups }: Pick<Diagnosis, 'blown' | 'hidden' | 'assumedAway' | 'groups'>,
  most = 1,
): readonly string[] {
  const near = most > 1 || (groups[0]?.share ?? 0) >= NEAR;
  return [
    ...blown.map((one) =>
      paragraph(openedWords(one), one.resets === undefined ? 'Blown fuse: ' : 'Opened: ', '  '),
    ),
    ...(near ? hidden : []).slice(0, most).map((one) => paragraph(hiddenWords(one), 'Hidden: ', '  ')),
    ...assumedAwayWords(assumedAway)
      .slice(0, most === 1 ? 3 : most)
      .map((words) => paragraph(words, 'Assumed: ', '  ')),
  ];
}

/** Groups that no test tells apart: where to look, and which access would split them. */
export function showAlike(groups: readonly Alike[]): readonly string[] {
  return groups.flatMap((group) =>
    alikeWords(group).map((words, index) => paragraph(words, index === 0 ? '' : '  ', '  ')),
  );
}
