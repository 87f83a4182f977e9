/** The tree as text, Markdown and DOT. */
import { beforeAll, describe, expect, test } from 'vitest';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { faultTree } from '../../src/planning/tree.js';
import { printTree, TREE_FORMS } from '../../src/report/tree-report.js';
import { treeSheet, type TreeSheet } from '../../src/report/tree-sheet.js';
import { recordedOf } from '../diagnosis/session-of.js';
import { readDot } from './dot-reader.js';
import { GAS, sheetOf, treeCircuit } from './tree-case.js';

let sheet: TreeSheet;
beforeAll(async () => {
  sheet = sheetOf(await treeCircuit());
});

test.each(TREE_FORMS)(
  'when it is printed as %s then every step, answer, end and caution is there',
  (form) => {
    const plain = printTree(sheet, form).replace(/\\l/g, ' ').replace(/\\/g, '').replace(/\s+/g, ' ');
    for (const words of [
      'look at H2 (right reversing lamp)',
      'ohms across its terminals 1 and 2',
      'about 12.6 V',
      GAS,
    ])
      expect(plain).toContain(words);
    expect(plain).toContain('no test here tells them apart');
    expect(plain).toContain('0.5 of 1.3 min');
    expect(plain).toContain('60 %');
  },
);

test.each(TREE_FORMS)('when only ASCII may be printed as %s then nothing else is', (form) => {
  const strange = { ...sheet, title: 'Rückfahrleuchten – Ω', concern: ['\u001b[31mred\u202e'] };
  expect(printTree(strange, form, { ascii: true })).toMatch(/^[\n\x20-\x7e]*$/);
  expect(printTree(strange, form)).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/);
});

describe('as text', () => {
  test('when it is printed then no line is wider than 80 columns', () => {
    for (const line of printTree(sheet, 'text').split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('when an answer leads on then it says where, and the number is there', () => {
    const text = printTree(sheet, 'text');
    const led = [...text.matchAll(/go to (\d+)/g)].map(([, number]) => number);
    expect(led).toEqual(['2', '3']);
    for (const number of led) expect(text).toMatch(new RegExp(`^ ${number}  `, 'm'));
  });

  test('when the circuit has five lamps then its tree fits about a page', async () => {
    const loaded = await readCircuit('circuits/stop-tail.yaml');
    if ('problems' in loaded) throw new Error('the circuit does not load');
    const bench = createWorkbench(loaded.circuit);
    const tree = faultTree(bench, recordedOf(bench, ['fails H1.54 when pedal down']))!;
    const text = printTree(treeSheet(loaded.circuit, ['H1.54 off'], tree), 'text');
    expect(text.split('\n').length).toBeLessThanOrEqual(80);
    expect(text.split('\n').length).toBeGreaterThan(40);
  }, 120_000);
});

describe('as Markdown', () => {
  test('when it is printed then every row of the table has its six cells', () => {
    const rows = printTree(sheet, 'markdown')
      .split('\n')
      .filter((line) => line.startsWith('|'));
    for (const row of rows) expect(row.replace(/\\\|/g, '').split('|')).toHaveLength(8);
    expect(rows).toHaveLength(2 + 2 + 3 + 2);
  });

  test('when a name holds signs of markup then they are escaped', () => {
    expect(printTree(sheet, 'markdown')).toContain('\\\\ \\<b\\>');
  });
});

describe('as DOT', () => {
  test('when it is read by the grammar of the language then every edge joins two boxes that are there', () => {
    const { nodes, edges } = readDot(printTree(sheet, 'dot'));
    for (const [from, to] of edges) {
      expect(nodes.has(from)).toBe(true);
      expect(nodes.has(to)).toBe(true);
    }
    expect(edges).toHaveLength(2 + 3 + 2);
    // Three tests and five ends.
    expect(nodes.size).toBe(8);
  });

  test('when it is a tree then every box but the first is led to once', () => {
    const { nodes, edges } = readDot(printTree(sheet, 'dot'));
    const led = edges.map(([, to]) => to);
    expect(new Set(led).size).toBe(led.length);
    expect([...nodes.keys()].filter((node) => !led.includes(node))).toEqual(['t1']);
  });

  test('when a label holds quotes and strokes then they come back whole', () => {
    const { nodes } = readDot(printTree(sheet, 'dot'));
    expect(nodes.get('t3')!.replaceAll('\n', ' ')).toContain('black "battery" \\ <b>');
  });
});
