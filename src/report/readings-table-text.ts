/** The table of readings on 80 columns, and as Markdown: columns by letter, so that long positions fit. */
import { visible } from '../circuit/visible.js';
import { wrap } from './layout.js';
import { escape } from './markdown.js';
import { voltsWords, type Column, type ReadingsTable, type Row, type Sheet } from './readings-table.js';

const WIDTH = 80;
export const CALCULATED = 'Calculated, every part at its nominal value. Nothing here was measured.';

export function tableText(table: ReadingsTable): string {
  const { columns } = table;
  const lines = [
    ...wrap(`Readings of ${visible(table.circuit.title)} (${table.circuit.id})`, WIDTH),
    ...wrap(`${CALCULATED} Volts, red probe at the point named, black at the second name or bat-.`, WIDTH),
    ...wrap(scopeWords(table), WIDTH),
    ...columns.flatMap(({ name }, i) =>
      wrap(visible(name), WIDTH, `  ${letter(i).padEnd(2)} `, ' '.repeat(7)),
    ),
  ];
  for (const sheet of table.sheets) lines.push('', ...sheetText(columns, sheet));
  return `${lines.join('\n')}\n`;
}

/** As many columns as fit stand side by side; the others follow in a block below. */
function sheetText(columns: readonly Column[], { label, fault, rows }: Sheet): readonly string[] {
  const title = fault === undefined ? 'HEALTHY' : `WITH FAULT: ${visible(label)} (${fault})`;
  const names = rows.map(nameOf);
  const first = Math.max(6, ...names.map(({ length }) => length)) + 1;
  const cells = rows.map(({ volts }) => volts.map((value) => voltsWords(value, 2)));
  const width = Math.max(7, ...cells.flat().map(({ length }) => length)) + 1;
  const fit = Math.max(1, Math.floor((WIDTH - first) / width));
  const lines = [...wrap(title, WIDTH)];
  for (let from = 0; from < columns.length; from += fit) {
    if (from > 0) lines.push('');
    const here = columns.slice(from, from + fit).map((_, i) => from + i);
    lines.push(`${'point'.padEnd(first)}${here.map((i) => letter(i).padStart(width)).join('')}`.trimEnd());
    names.forEach((name, row) =>
      lines.push(`${name.padEnd(first)}${here.map((i) => cells[row]![i]!.padStart(width)).join('')}`),
    );
  }
  return lines;
}

export function tableMarkdown(table: ReadingsTable): string {
  const head = ['point', ...table.columns.map(({ name }) => name)];
  const blocks = [
    `# Readings: ${escape(table.circuit.title)}`,
    escape(`${CALCULATED} ${scopeWords(table)} Volts.`),
    ...table.sheets.flatMap(({ label, fault, rows }) => [
      `## ${escape(fault === undefined ? 'Healthy' : `${label} (${fault})`)}`,
      [
        `| ${head.map(escape).join(' | ')} |`,
        `|---|${'---:|'.repeat(head.length - 1)}`,
        ...rows.map(
          (row) =>
            `| ${[nameOf(row), ...row.volts.map((value) => voltsWords(value, 2))].map(escape).join(' | ')} |`,
        ),
      ].join('\n'),
    ]),
  ];
  return `${blocks.join('\n\n')}\n`;
}

/** Comma-separated, one line per fault and point, after RFC 4180: CRLF, quotes doubled. */
export function tableCsv({ columns, sheets }: ReadingsTable): string {
  const lines = [
    ['fault', 'red', 'black', ...columns.map(({ name }) => name)],
    ...sheets.flatMap(({ fault, rows }) =>
      rows.map(({ red, black, volts }) => [
        fault ?? 'healthy',
        red,
        black,
        ...volts.map((value) => voltsWords(value, 3)),
      ]),
    ),
  ];
  return lines.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

function quoted(cell: string): string {
  const shown = visible(cell);
  return /[",\r\n]/.test(shown) ? `"${shown.replaceAll('"', '""')}"` : shown;
}

/** Whether all combinations stand here, and if not, which. */
function scopeWords({ all, of }: ReadingsTable): string {
  return all
    ? 'Every combination of the controls.'
    : `The controls have ${of} combinations: here are rest and one change at a time; for others --when.`;
}

function nameOf({ red, black }: Pick<Row, 'red' | 'black'>): string {
  return black === 'bat-' ? red : `${red} ${black}`;
}

/** a … z, aa … */
function letter(index: number): string {
  const one = String.fromCharCode(97 + (index % 26));
  return index < 26 ? one : `${letter(Math.floor(index / 26) - 1)}${one}`;
}
