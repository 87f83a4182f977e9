/** What is still suspected, by repair: a mechanic chooses between repairs, not between joints. */
import type { Diagnosis, Suspect } from '../../diagnosis/diagnosis-types.js';
import { faultWords } from '../../report/cause.js';
import { suspectSeverities } from '../../report/severity-words.js';
import { measuredWords, softWords } from '../../report/soft-words.js';
import { nothingFits, showOpen } from './open.js';
import { paragraph, percent } from './page.js';

const UNDER = ' '.repeat(10);

/** Repairs with less than this share are only counted, also when all are asked for. */
const LEAST = 0.005;

/** @param most repairs shown, the likeliest first; `Infinity` also tells which faults each of them mends */
export function showSuspects(diagnosis: Diagnosis, most = 5): readonly string[] {
  const { groups } = diagnosis;
  if (!diagnosis.abnormal)
    return [
      paragraph(
        'Nothing recorded so far is surely out of order. Say what fails, and in which condition: fails H1 when CONTROL POSITION.',
      ),
    ];
  if (groups.length === 0) return nothingFits(diagnosis);
  const all = most === Infinity;
  const common = diagnosis.paired ? commonRepair(groups) : undefined;
  // A second fault mostly stands beside one and the same repaired one: told once.
  const left = sameBeside(groups);
  const lines = [paragraph(headOf(diagnosis)), ...(left === undefined ? [] : [paragraph(left)])];
  if (common !== undefined) lines.push(paragraph(`${common}; and with it:`, '  Nearly always: ', '    '));
  const shown = groups.filter(({ share }, place) => place < most && (place < 5 || share >= LEAST));
  for (const [place, { repair, suspects, share }] of shown.entries()) {
    const how = common === undefined ? repair.how : otherRepairs(suspects[0]!, common);
    lines.push(paragraph(`${how} (${repair.minutes} min)`, `${percent(share).padStart(6)}  `, UNDER));
    if (groups.length === 1 || (all && !diagnosis.paired)) lines.push(...eachOf(suspects));
    else if (place === 0) lines.push(...suspectSeverities(suspects[0]!, 'with place').map(under));
    lines.push(...marksOf(suspects).map(under));
    if (left === undefined) lines.push(...leftBeside(suspects).map(under));
  }
  if (groups.length > shown.length) {
    const rest = groups.slice(shown.length).reduce((sum, group) => sum + group.share, 0);
    const hint = all ? 'each under 1 %' : 'all of them: suspects';
    lines.push(`${percent(rest).padStart(6)}  ${groups.length - shown.length} more (${hint})`);
  }
  return [...lines, ...showOpen(diagnosis)];
}

/** Share of the pairs from which on the repair that they have in common is told once, above them. */
const IN_COMMON = 0.9;

/** The repair that nearly every pair needs, where there is one. */
function commonRepair(groups: Diagnosis['groups']): string | undefined {
  const shares = new Map<string, number>();
  for (const { faults, share } of groups.flatMap((group) => group.suspects))
    for (const how of new Set(faults.map(({ repair }) => repair.how)))
      shares.set(how, (shares.get(how) ?? 0) + share);
  return groups.length < 2 ? undefined : [...shares].find(([, share]) => share >= IN_COMMON)?.[0];
}

function otherRepairs({ faults }: Suspect, common: string): string {
  const all = faults.map(({ repair }) => repair.how);
  if (!all.includes(common)) return `instead: ${all.join(' and ')}`;
  return all.filter((how) => how !== common).join(' and ') || 'two faults there';
}

function headOf({ suspects, groups, paired, pairsExamined }: Diagnosis): string {
  const tried = `${pairsExamined.done} of ${pairsExamined.of} pairs tried`;
  const most = Math.max(...suspects.map(({ faults }) => faults.length));
  if (!paired && most > 1)
    return `Suspects left, by repair (${groups.length}). What explains all findings alone does so only in a narrow range, so two together stand beside it (${tried}):`;
  if (!paired) return `Suspects left, by repair (${groups.length}):`;
  if (most > 2)
    return 'No one fault and no two explain all findings. Three together that do, grown from pairs that nearly fit (not all threes were tried):';
  return `No single fault explains all findings. Two together that do (${tried}):`;
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
  const notes = softWords(suspects);
  const moved =
    notes.length > 0 ? `the rest is not proof: ${notes.join('; ')}` : 'what moved it speaks for others';
  return [
    ...(suspects.some((one) => one.confirmed) ? ['CONFIRMED'] : []),
    ...(suspects.some((one) => one.touched && !one.confirmed)
      ? ['disturbed since the complaint was last there']
      : []),
    ...(suspects.every((one) => one.course === 'comes and goes')
      ? ['fits only as a fault that comes and goes']
      : []),
    ...(measured === undefined ? [] : [`${measured}; ${moved}`]),
  ];
}

/** A second fault, which showed only when the first had been repaired. */
function leftBeside(suspects: readonly Suspect[]): readonly string[] {
  const labels = new Set(suspects.flatMap(({ besides = [] }) => besides.map(({ label }) => label)));
  return labels.size === 0
    ? []
    : [`A second fault, left over beside what was repaired: ${[...labels].join(' or ')}`];
}

/** What all second faults among the suspects were left over beside, where it is the same. */
function sameBeside(groups: Diagnosis['groups']): string | undefined {
  const words = groups.flatMap(({ suspects }) =>
    suspects.filter(({ besides }) => besides).map((one) => leftBeside([one])[0]),
  );
  return new Set(words).size === 1 ? words[0]!.replace('A second fault', 'Second faults') : undefined;
}

function under(text: string): string {
  return paragraph(text, UNDER, `${UNDER}  `);
}
