/** The tree as a graph in the DOT language of Graphviz, for drawing: boxes are tests, rounded ones are where it ends. */
import { visible } from '../circuit/visible.js';
import { percent, toAscii, wrap } from './layout.js';
import { expectedWords, HOW_TO_READ, ofMinutes, type TreeSheet } from './tree-sheet.js';

/** Columns in a box. */
const BOX = 34;

export function treeDot(sheet: TreeSheet, { ascii = false } = {}): string {
  const title = [`${sheet.title} (${sheet.circuit})`, ...sheet.concern.map((words) => `Concern: ${words}`)];
  const foot = [
    ...wrap(visible(`${expectedWords(sheet)} ${HOW_TO_READ}`), 100),
    ...sheet.cautions.flatMap(({ letter, text }) => wrap(visible(text), 100, `[${letter}] `, '    ')),
  ];
  const lines = [
    'digraph tree {',
    `  graph [rankdir=LR, labelloc=t, label=${quoted([...title.map((line) => visible(line)), ...foot])}];`,
    '  node [shape=box, fontname="Helvetica"];',
    '  edge [fontname="Helvetica"];',
    ...(sheet.end === undefined ? [] : [`  end [${leaf(sheet.end)}];`]),
    ...sheet.steps.flatMap((step) => {
      const { number, words, cautions, answers } = step;
      const marks = cautions.map((letter) => ` [${letter}]`).join('');
      const box = wrap(visible(`${number}. ${words}${marks} (${ofMinutes(step)})`), BOX);
      return [
        `  t${number} [label=${quoted(box)}];`,
        ...answers.flatMap(({ when, share, then }, i) => {
          const to = typeof then === 'number' ? `t${then}` : `e${number}_${i + 1}`;
          const edge = `  t${number} -> ${to} [label=${quoted([visible(when), percent(share)])}];`;
          return typeof then === 'number' ? [edge] : [`  ${to} [${leaf(then)}];`, edge];
        }),
      ];
    }),
    '}',
  ];
  const text = `${lines.join('\n')}\n`;
  return ascii ? toAscii(text) : text;
}

function leaf(words: string): string {
  return `style=rounded, label=${quoted(wrap(visible(words), BOX))}`;
}

/** Lines set to the left. Within quotes DOT knows `"` and `\`; `&` would begin an entity. */
function quoted(lines: readonly string[]): string {
  const safe = lines.map((line) =>
    line.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('&', '&amp;'),
  );
  return `"${safe.map((line) => `${line}\\l`).join('')}"`;
}
