/** The tree as Markdown: a table, one row an answer. */
import { escape } from './markdown.js';
import { percent, toAscii } from './layout.js';
import { expectedWords, HOW_TO_READ, ofMinutes, type TreeSheet } from './tree-sheet.js';

export function treeMarkdown(sheet: TreeSheet, { ascii = false } = {}): string {
  const blocks = [
    `# Fault-finding tree: ${escape(sheet.title)}`,
    [
      `- Circuit: ${escape(sheet.circuit)}`,
      ...sheet.concern.map((words) => `- Concern: ${escape(words)}`),
      `- ${escape(expectedWords(sheet))}`,
    ].join('\n'),
    escape(HOW_TO_READ),
    ...(sheet.end === undefined ? [] : [escape(sheet.end)]),
    ...(sheet.steps.length === 0 ? [] : [tableOf(sheet)]),
    ...(sheet.cautions.length === 0
      ? []
      : [
          '## Cautions',
          sheet.cautions.map(({ letter, text }) => `- ${escape(`[${letter}]`)} ${escape(text)}`).join('\n'),
        ]),
  ];
  const text = `${blocks.join('\n\n')}\n`;
  return ascii ? toAscii(text) : text;
}

/** The test stands in the row of its first answer. */
function tableOf({ steps }: TreeSheet): string {
  const rows = steps.flatMap((step) =>
    step.answers.map(({ when, share, then }, i) => {
      const marks = step.cautions.map((letter) => ` [${letter}]`).join('');
      const test = i === 0 ? [String(step.number), `${step.words}${marks}`, ofMinutes(step)] : ['', '', ''];
      const cells = [...test, when, percent(share), typeof then === 'number' ? `go to ${then}` : then];
      return `| ${cells.map(escape).join(' | ')} |`;
    }),
  );
  return ['| no. | test | time | answer | share | then |', '|---|---|---|---|---|---|', ...rows].join('\n');
}
