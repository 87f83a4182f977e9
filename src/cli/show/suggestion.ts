/** A suggested test: what to do first, where the probes go, and what each outcome would mean. */
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import type { Attempt } from '../../planning/next.js';
import type { NoPreview } from '../../planning/preview.js';
import type { Suggestion } from '../../planning/suggestion.js';
import { paragraph, percent } from './page.js';

/** Expected minutes nobody would notice. */
const SAME = 0.25;

const ANSWER: Readonly<Record<Suggestion['expects'], string>> = {
  volts: 'the reading, like 11.4 or 11.8/12.4 (here / battery)',
  ohms: 'the reading, like 0.3, 1k2 or OL',
  amps: 'the reading, like 1.7 or 450mA',
  beep: 'yes or no',
  sight: 'what it does',
  testlamp: 'lit, dim or off',
  scan: 'what the scan tool shows, or: no answer',
};

/** The suggestions with what sets each apart from the first. */
export function showSuggestions(suggestions: readonly Suggestion[]): readonly string[] {
  const [best] = suggestions;
  return suggestions.flatMap((one, place) =>
    showSuggestion(one, place === 0 ? 'Suggested test: ' : 'Or: ', place === 0 ? undefined : best),
  );
}

/** @param best the test it is compared with */
export function showSuggestion(
  suggestion: Suggestion,
  head = 'Suggested test: ',
  best?: Suggestion,
): readonly string[] {
  const { words, minutes, line, first, outcomes } = suggestion;
  const road = roadWords(suggestion, best);
  return [
    paragraph(`${words} (about ${round(minutes)} min)`, head, '  '),
    ...first.map((step) => `  first: ${step}`),
    `  line:  ${line} ...`,
    paragraph(`answer: ${answerTo(suggestion)}; or: cannot tell, cannot reach, no tool`, '  ', '    '),
    ...outcomes.map(({ when, means, chance }) =>
      paragraph(`${when}: ${means}`, `  ${percent(chance).padStart(5)}  `),
    ),
    ...(road === undefined ? [] : [paragraph(road, '  ', '    ')]),
    ...cautionLines(suggestion.cautions),
  ];
}

function answerTo({ expects, sights }: Suggestion): string {
  return sights === undefined ? ANSWER[expects] : `${ANSWER[expects]}: ${sights.join(', ')}`;
}

/** How far the right repair is this way, and how much farther than by the best; why, where minutes do not say it. */
function roadWords({ expectedMinutes, minutes, gain }: Suggestion, best?: Suggestion): string | undefined {
  if (expectedMinutes === undefined) return undefined;
  const road = `This way about ${round(expectedMinutes)} min to the right repair`;
  if (best?.expectedMinutes === undefined) return `${road}, the test included.`;
  const more = expectedMinutes - best.expectedMinutes;
  const reasons = [
    ...(minutes > best.minutes + 0.05 ? [`the test takes ${round(minutes - best.minutes)} min more`] : []),
    ...(gain < best.gain - 0.05 ? ['it tells less'] : []),
  ];
  const why = reasons.length === 0 ? '' : ` (${reasons.join(', ')})`;
  if (more < -SAME) return `${road}: ${round(-more)} min less than by the suggested test.`;
  return more < SAME
    ? `${road}: as good as the suggested test.`
    : `${road}: ${round(more)} min more than by the suggested test${why}.`;
}

/** A repair that is sooner tried than tested. Nothing where it is the only one left: that is no try. */
export function showAttempt(
  { groups }: Pick<Diagnosis, 'groups'>,
  attempt: Attempt | undefined,
  best: Suggestion | undefined,
): readonly string[] {
  if (attempt === undefined || groups.length < 2) return [];
  const { chance, minutes, expectedMinutes, group } = attempt;
  const test = best?.expectedMinutes;
  const sooner =
    test === undefined || expectedMinutes === undefined
      ? 'No test tells the likely repairs apart better.'
      : `Sooner than any test: ${soon(expectedMinutes)} until the right repair is begun, wrong tries counted; by the test below ${soon(test)}.`;
  return [
    paragraph(
      `${groups[group]!.repair.how} (${round(minutes)} min with its parts and the repeat of the failed condition; right in ${percent(chance)}). ${sooner} A try, not a proof: repeat the failed condition after it, and record what it does.`,
      'Try first: ',
      '  ',
    ),
  ];
}

const NO_PREVIEW: Readonly<Record<NoPreview, string>> = {
  'nothing failed': 'Nothing was found wrong yet: say first what fails, and in which condition.',
  'nothing to watch': 'Add the reading you mean to take, for example: volts X3.1h ?',
  'not forecast': 'What this reading would be cannot be foretold: it may be recorded all the same.',
};

/** What a test of one's own would bring. */
export function showPreview(
  preview: Suggestion | NoPreview,
  best: Suggestion | undefined,
): readonly string[] {
  if (typeof preview === 'string') return [NO_PREVIEW[preview]];
  return [
    ...showSuggestion(preview, 'Not recorded, only looked at: ', best),
    ...(preview.outcomes.length < 2 ? ['  It would tell none of the suspects apart.'] : []),
  ];
}

export function cautionLines(
  cautions: readonly { readonly text: string; readonly stop: boolean }[],
): readonly string[] {
  return cautions.map(({ text, stop }) => paragraph(text, stop ? '  STOP: ' : '  Caution: ', '  '));
}

function soon(minutes: number): string {
  return minutes < 0.5 ? 'next to no time' : `about ${round(minutes)} min`;
}

function round(minutes: number): string {
  return String(Number(minutes.toPrecision(2)));
}
