/** What is always open beside the suspects, and what is left to believe when no fault in the drawing explains the readings. */
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { openShares } from '../../report/symptom-words.js';
import { paragraph } from './page.js';

/** From this share on an open explanation is no longer a remark: its check is told at once. */
const HEAVY = 0.25;

/** One line with shares, at the end of the suspects; the heaviest with its check where it weighs much. */
export function showOpen({ open }: Diagnosis): readonly string[] {
  if (open.length === 0) return [];
  const heaviest = open.reduce((best, one) => (one.share > best.share ? one : best));
  return [
    paragraph(openShares(open), '  Open as well: ', '    '),
    ...(heaviest.share >= HEAVY ? [paragraph(`${heaviest.what}: ${heaviest.advice}`, '    ', '      ')] : []),
  ];
}

/** The explanations that remain, in the order of the diagnosis, each with its check and the findings to take again. */
export function nothingFits({ open, findings, pairsExamined }: Diagnosis): readonly string[] {
  const sense = new Map(findings.map((one) => [one.number, one]));
  return [
    'Nothing in this drawing explains all the readings. What remains, check by check:',
    ...open.flatMap(({ what, advice, findings: numbers }) => [
      paragraph(`${what}: ${advice}`, '  - ', '    '),
      ...numbers.flatMap((number) => {
        const one = sense.get(number);
        return one === undefined
          ? []
          : [
              paragraph(
                `#${number} was ${one.reading}; a healthy vehicle: ${one.prediction}`,
                '      ',
                '        ',
              ),
            ];
      }),
      ...(what === 'the drawing differs'
        ? ['      Correct the circuit file, then type: redraw and a few words. Findings stay.']
        : []),
    ]),
    ...(pairsExamined.done < pairsExamined.of
      ? [
          paragraph(
            `Only ${pairsExamined.done} of ${pairsExamined.of} pairs of faults were tried. All of them, and threes: knowngood suspects --thorough (takes minutes).`,
          ),
        ]
      : []),
  ];
}
