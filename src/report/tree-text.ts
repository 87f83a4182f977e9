/** The tree as text of 80 columns, to be printed and hung up. */
import { visible } from '../circuit/visible.js';
import { percent, toAscii, wrap } from './layout.js';
import { expectedWords, HOW_TO_READ, ofMinutes, type SheetStep, type TreeSheet } from './tree-sheet.js';

const WIDTH = 80;
/** Stands for a blank at which no line is broken. */
const GLUE = '\u0000';

/** @param ascii fold every character a plain printer does not know */
export function treeText(sheet: TreeSheet, { ascii = false } = {}): string {
  const lines = [
    ...wrap(visible(`FAULT-FINDING TREE  ${sheet.title} (${sheet.circuit})`), WIDTH),
    ...sheet.concern.flatMap((words) => wrap(visible(words), WIDTH, 'Concern: ', '         ')),
    ...wrap(`${expectedWords(sheet)} ${HOW_TO_READ}`, WIDTH),
    '-'.repeat(WIDTH),
    ...(sheet.end === undefined ? [] : wrap(visible(sheet.end), WIDTH)),
    ...sheet.steps.flatMap(stepLines),
    ...(sheet.cautions.length === 0 ? [] : ['-'.repeat(WIDTH)]),
    ...sheet.cautions.flatMap(({ letter, text }) => wrap(visible(text), WIDTH, `[${letter}] `, '    ')),
  ];
  const text = `${lines.join('\n')}\n`;
  return ascii ? toAscii(text) : text;
}

function stepLines(step: SheetStep): readonly string[] {
  const { number, words, cautions, answers } = step;
  const head = `${String(number).padStart(2)}  `;
  const marks = cautions.map((letter) => ` [${letter}]`).join('');
  return [
    ...wrap(
      `${visible(`${words}${marks}`)} (${ofMinutes(step).replaceAll(' ', GLUE)})`,
      WIDTH,
      head,
      '    ',
    ).map((line) => line.replaceAll(GLUE, ' ')),
    ...answers.flatMap(({ when, share, then }) =>
      wrap(
        visible(`${when}: ${typeof then === 'number' ? `go to ${then}` : then}`),
        WIDTH,
        `    ${percent(share).padStart(5)}  `,
        ' '.repeat(13),
      ),
    ),
  ];
}
