/** The student's road, step by step, with the best step beside each; then the planner's own road on the same vehicle. */
import type { Choice, Loss } from '../exercise/mark-data.js';
import { wrap } from './layout.js';

const WIDTH = 80;

export function choiceLines(choice: Choice): readonly string[] {
  const { number, words, predicted, bits, value, best, score, told, left, kind } = choice;
  const indent = '        ';
  const could =
    kind === 'repair' && best === undefined
      ? 'a repair, with no test left that was worth more'
      : `could tell ${bits.toFixed(2)} bit, ${value.toFixed(2)} a minute`;
  const then =
    best === undefined || score >= 1
      ? ''
      : `; best then: ${best.line} (${best.bits.toFixed(2)} bit, ${best.value.toFixed(2)} a minute)`;
  return [
    ...wrap(words, WIDTH, `${`#${number}`.padStart(6)}  `, indent),
    ...(predicted === undefined ? [] : wrap(`predicted: ${predicted}`, WIDTH, indent)),
    ...wrap(`${could}${then}. Worth ${Math.round(100 * score)} %`, WIDTH, indent),
    ...wrap(
      `told: ${told === '' ? 'nothing new' : told.replace(/\.$/, '')}; repairs left ${left[0]} -> ${left[1]}`,
      WIDTH,
      indent,
    ),
  ];
}

/** What the student said before the readings proved it. */
export function unprovedLines(losses: readonly Loss[]): readonly string[] {
  return losses
    .filter(({ item, event }) => item === 'claims' && event !== undefined)
    .flatMap(({ event, why }) =>
      wrap(
        `concluded without proof: ${event!.words}: ${why}`,
        WIDTH,
        `#${event!.number}`.padStart(6) + '  ',
        '        ',
      ),
    );
}

export function roadLines(title: string, choices: readonly Choice[]): readonly string[] {
  if (choices.length === 0) return [title, '        no test was chosen'];
  return [title, ...choices.flatMap((choice) => choiceLines(choice))];
}
