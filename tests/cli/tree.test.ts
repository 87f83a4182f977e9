/** `tree` on the command line. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { bench, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

const CONCERN = 'fails H1 when key on, gear reverse';

test.each([
  ['text', /^FAULT-FINDING TREE .*reversing-lamps/],
  ['markdown', /^# Fault-finding tree: /],
  ['dot', /^digraph tree \{/],
])('when a tree is asked for as %s then it is on stdout, and nothing on stderr', async (form, start) => {
  const ran = await at.run(['tree', REVERSING, CONCERN, '--format', form, '--depth', '2']);
  expect(ran.status, shown(ran)).toBe(0);
  expect(ran.stdout).toMatch(start);
  expect(ran.stdout).toContain('H1 ');
  expect(ran.stderr).toBe('');
});

test('when a depth is given then the tree ends there', async () => {
  const ran = await at.run(['tree', REVERSING, CONCERN, '--depth', '1']);
  expect(ran.stdout, shown(ran)).toMatch(/^ 1 {2}/m);
  expect(ran.stdout).not.toMatch(/^ 2 {2}/m);
});

test('when my own costs make glances dear then the tree counts them', async () => {
  await at.file('mine.yaml', 'look: 20 min\n');
  const first = async (costs: readonly string[]): Promise<string> =>
    (await at.run(['tree', REVERSING, CONCERN, '--depth', '1', ...costs])).stdout
      .split('\n')
      .find((line) => line.startsWith(' 1  '))!;
  expect(await first([])).toContain('look at H2');
  expect(await first(['--costs', 'mine.yaml'])).not.toContain('look at H2 (right reversing lamp) (0.');
});

describe('what cannot become a tree', () => {
  test.each([
    ['no line', [], 'fails H1 when key on'],
    ['lines in which nothing fails', ['works H1 H2 when key on, gear reverse'], 'Say what fails'],
    ['a question', ['suspects'], 'does not say what fails'],
    ['a name that is not there', ['fails H7 when key on'], 'H7'],
    ['an unknown format', [CONCERN, '--format', 'mardown'], 'id you mean markdown?'],
    ['a depth that is no number', [CONCERN, '--depth', 'two'], '--depth 4'],
    ['a depth of nothing', [CONCERN, '--depth', '0'], '--depth 4'],
  ])('when there is %s then status 2 and how to mend it', async (_title, argv, says) => {
    const ran = await at.run(['tree', REVERSING, ...argv]);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stdout).toBe('');
    expect(ran.stderr).toContain(says);
  });
});
