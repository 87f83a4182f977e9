/** A suggested test: what to do first, where the probes go, and what each outcome would mean. */
import type { Suggestion } from '../../planning/suggestion.js';
import { paragraph, percent } from './page.js';

const ANSWER: Readonly<Record<Suggestion['expects'], string>> = {
  volts: 'the reading, like 11.4 or 11.8/12.4 (here / battery)',
  ohms: 'the reading, like 0.3, 1k2 or OL',
  amps: 'the reading, like 1.7 or 450mA',
  beep: 'yes or no',
  sight: 'what it does: lit, dim, off, flickers, runs, slow, clicks ...',
  testlamp: 'lit, dim or off',
  scan: 'what the scan tool shows, or: no answer',
};

export function showSuggestion(suggestion: Suggestion): readonly string[] {
  const { words, minutes, line, first, outcomes } = suggestion;
  return [
    paragraph(`${words} (about ${round(minutes)} min)`, 'Suggested test: ', '  '),
    ...first.map((step) => `  first: ${step}`),
    `  line:  ${line} ...`,
    paragraph(`answer: ${ANSWER[suggestion.expects]}; or: cannot tell, cannot reach, no tool`, '  ', '    '),
    ...outcomes.map(({ when, means, chance }) =>
      paragraph(`${when}: ${means}`, `  ${percent(chance).padStart(5)}  `),
    ),
    ...cautionLines(suggestion.cautions),
  ];
}

export function cautionLines(
  cautions: readonly { readonly text: string; readonly stop: boolean }[],
): readonly string[] {
  return cautions.map(({ text, stop }) => paragraph(text, stop ? '  STOP: ' : '  Caution: ', '  '));
}

function round(minutes: number): string {
  return String(Number(minutes.toPrecision(2)));
}
