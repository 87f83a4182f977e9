/** The table of readings, and its three forms. */
import { describe, expect, test } from 'vitest';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { nominalVolts } from '../../src/diagnosis/readings.js';
import {
  columnsFrom,
  probesOf,
  sheetOf,
  voltsWords,
  type ReadingsTable,
} from '../../src/report/readings-table.js';
import { tableCsv, tableMarkdown, tableText } from '../../src/report/readings-table-text.js';
import { setUpFrom } from '../../src/cli/set-up-flags.js';
import { circuitOf } from '../circuit/shelf.js';

function tableOf(name: string, when: readonly string[] = [], fixed: readonly string[] = []): ReadingsTable {
  const circuit = circuitOf(name);
  const bench = createWorkbench(circuit);
  const columns = columnsFrom(circuit, setUpFrom(circuit, when), new Set(fixed));
  return { circuit, ...columns, sheets: [sheetOf(bench, columns.columns, probesOf(bench, 'bat-'))] };
}

test('when the controls are few then every combination has a column, and says so', () => {
  const table = tableOf('stop-tail');
  expect(table.columns.map(({ name }) => name)).toEqual([
    'all at rest',
    'horn button pressed',
    'lights on',
    'lights on, horn button pressed',
    'pedal down',
    'pedal down, horn button pressed',
    'pedal down, lights on',
    'pedal down, lights on, horn button pressed',
  ]);
  expect(tableText(table)).toContain('Every combination of the controls.');
});

test('when the controls are many then rest and one change at a time are shown, and how many there are', () => {
  const table = tableOf('trailer');
  expect(table.columns.map(({ name }) => name)).toEqual([
    'all at rest',
    'key on',
    'pedal down',
    'lights on',
    'turn lever left',
    'turn lever right',
  ]);
  expect(table.of).toBe(24);
  expect(tableText(table)).toContain('24 combinations');
});

test('when a control is held then it stays so in every column', () => {
  const { columns } = tableOf('stop-tail', ['pedal down'], ['pedal']);
  expect(columns).toHaveLength(4);
  for (const { setUp } of columns) expect(setUp.controls.get('pedal')).toBe('down');
});

test('when a figure stands in the table then it is the one the readings command gives', () => {
  const { circuit, columns, sheets } = tableOf('daytime-module');
  const bench = createWorkbench(circuit);
  const rows = sheets[0]!.rows;
  expect(rows.length).toBeGreaterThan(60);
  for (const [i, { red, black, volts }] of rows.entries()) {
    if (i % 7 !== 0) continue;
    columns.forEach(({ setUp }, column) =>
      expect(volts[column], `${red} ${columns[column]!.name}`).toEqual(
        nominalVolts(bench, setUp, red, black, []),
      ),
    );
  }
});

describe('its forms', () => {
  const table = tableOf('work-lamps');

  test('when it is text then no line is wider than 80 columns and every point is there', () => {
    const text = tableText(table);
    for (const line of text.split('\n')) expect(line.length, line).toBeLessThanOrEqual(80);
    for (const { red } of table.sheets[0]!.rows) expect(text).toContain(`\n${red}`);
  });

  test('when it is CSV then it reads back cell by cell, with CRLF after RFC 4180', () => {
    const csv = tableCsv(table);
    expect(csv.endsWith('\r\n')).toBe(true);
    const records = csv.slice(0, -2).split('\r\n').map(cellsOf);
    expect(records[0]).toEqual(['fault', 'red', 'black', ...table.columns.map(({ name }) => name)]);
    expect(records).toHaveLength(table.sheets[0]!.rows.length + 1);
    for (const [i, row] of table.sheets[0]!.rows.entries())
      expect(records[i + 1]).toEqual([
        'healthy',
        row.red,
        row.black,
        ...row.volts.map((one) => voltsWords(one, 3)),
      ]);
  });

  test('when it is Markdown then every row has as many cells as the head', () => {
    const rows = tableMarkdown(table)
      .split('\n')
      .filter((line) => line.startsWith('|'));
    const count = (line: string): number => line.replaceAll('\\|', '').split('|').length;
    expect(rows.length).toBe(table.sheets[0]!.rows.length + 2);
    for (const row of rows) expect(count(row), row).toBe(count(rows[0]!));
  });
});

test('when a circuit can stand in two ways then both figures are shown', () => {
  expect(voltsWords([0.001, 12.54], 2)).toBe('0.00 or 12.54');
  expect(voltsWords([-0.001, 0.001], 2)).toBe('0.00');
});

/** One record of RFC 4180. */
function cellsOf(record: string): string[] {
  return [...record.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^",]*))/g)].map(([, quoted, plain]) =>
    quoted === undefined ? plain! : quoted.replaceAll('""', '"'),
  );
}
