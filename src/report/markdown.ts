/** The report as Markdown, for a workshop's own papers. Text from people is escaped: it must not become markup. */
import { visible } from '../circuit/visible.js';
import { toAscii } from './layout.js';
import type { Report, ReportStep } from './report-data.js';
import { sectionsOf, type Line } from './sections.js';
import { footer } from './text.js';

export function reportMarkdown(report: Report, { ascii = false } = {}): string {
  const blocks = [`# Repair report`, escape(report.circuit.title)];
  for (const { title, body } of sectionsOf(report)) blocks.push(`## ${escape(title)}`, ...linesOf(body));
  blocks.push(
    '## Signatures',
    '- Technician: ____________________\n- Customer: ____________________',
    escape(footer(report)),
  );
  const text = `${blocks.join('\n\n')}\n`;
  return ascii ? toAscii(text) : text;
}

function linesOf(body: readonly Line[]): readonly string[] {
  const blocks: string[] = [];
  let list: string[] = [];
  let table: string[] = [];
  const flush = (): void => {
    if (list.length > 0) blocks.push(list.join('\n'));
    if (table.length > 0)
      blocks.push(
        ['| no. | time | kind | what | with | proved |', '|---|---|---|---|---|---|', ...table].join('\n'),
      );
    [list, table] = [[], []];
  };
  for (const line of body) {
    if (line.kind === 'item') list.push(`- ${escape(line.text)}`);
    else if (line.kind === 'field') list.push(`- ${escape(line.label)}: ${escape(line.text)}`);
    else if (line.kind === 'step') table.push(row(line.step));
    else {
      flush();
      blocks.push(escape(line.text));
    }
  }
  flush();
  return blocks;
}

function row(step: ReportStep): string {
  const cells = [String(step.number), step.time, step.kind, step.words, step.conditions, step.proved];
  return `| ${cells.map(escape).join(' | ')} |`;
}

/** Text from people as it is, without being markup. */
export function escape(text: string): string {
  return visible(text).replace(/[\\`*_{}[\]<>()#+!|~&]/g, (sign) => `\\${sign}`);
}
