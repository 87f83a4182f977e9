import { beforeAll, describe, expect, test } from 'vitest';
import type { Circuit } from '../../src/circuit/circuit.js';
import { FUSE_CAUTION, treeSheet, type TreeSheet } from '../../src/report/tree-sheet.js';
import { GAS, leaf, repair, sheetOf, treeCircuit } from './tree-case.js';

let circuit: Circuit;
let sheet: TreeSheet;
beforeAll(async () => {
  circuit = await treeCircuit();
  sheet = sheetOf(circuit);
});

const answer = (step: number, when: string) =>
  sheet.steps[step - 1]!.answers.find((one) => one.when === when)?.then;

test('when a tree is numbered then each answer leads to a later number or to an end', () => {
  expect(sheet.steps.map(({ number }) => number)).toEqual([1, 2, 3]);
  expect(answer(1, 'off')).toBe(2);
  expect(answer(2, 'OL')).toBe(3);
});

test('when shares are told then they are of all faults, and rare ends without a test are left out', () => {
  expect(sheet.steps[1]!.answers.map(({ share }) => share)).toEqual([
    expect.closeTo(0.16),
    expect.closeTo(0.22),
    expect.closeTo(0.02),
  ]);
  expect(sheet.steps[0]!.answers.map(({ when }) => when)).toEqual(['lit', 'off']);
});

test('when the labour rate is lower then the parts of the repairs count as more work', () => {
  const one = leaf('repair', repair('H1', 'replace H1', 1));
  const at = (labour: number): number => treeSheet({ ...circuit, costs: { labour } }, [], one).mending;
  expect(at(60)).toBeCloseTo(8 + 6);
  expect(at(30)).toBeCloseTo(8 + 12);
  expect(sheet.mending).toBeCloseTo(14 * (1 - 0.4 * 0.55 * 0.5));
});

test('when something is to be done first then it stands before the test, and not twice', () => {
  expect(sheet.steps[0]!.words).toBe('gear reverse; look at H2 (right reversing lamp)');
  expect(sheet.steps[1]!.words).toBe(
    'key off; take F7 (fuse reversing lamps) out; ohms across its terminals 1 and 2',
  );
});

test('when two steps need the same caution then it has one letter and stands once', () => {
  expect(sheet.steps[1]!.cautions).toEqual(sheet.steps[2]!.cautions);
  expect(sheet.cautions.filter(({ text }) => text === GAS)).toHaveLength(1);
});

describe('an end', () => {
  test('when one repair is left then it is told with its minutes', () => {
    expect(answer(3, 'about 12.6 V')).toBe('Repair wire W4 (S1.15 to F7.1) (8 min)');
  });
  test('when several parts are left then those with a share worth a word are named, with their label the first time', () => {
    expect(answer(1, 'lit')).toBe(
      'One of: H1 (left reversing lamp) 70 %, X3 (left lamp connector) 28 % and 1 more',
    );
  });
  test('when no test tells them apart then that is said', () => {
    expect(answer(2, 'about 0.0 ohm')).toMatch(
      /^One of: SP1 .*60 %, W3 .*40 %; no test here tells them apart$/,
    );
  });
  test('when all that is left is at one part then what may be done there is told, by its id where its step named it', () => {
    expect(answer(2, '1 ohm')).toMatch(/^F7: replace; or clean and tighten the contacts/);
    expect(sheet.steps.filter(({ words }) => words.includes('F7 (fuse reversing lamps)')).length).toBe(1);
  });
  test('when volts are against battery negative then the head says so and the step does not', () => {
    expect(sheet.steps.some(({ words }) => words.includes('black battery negative'))).toBe(false);
  });
  test('when it says to replace a fuse then a caution goes with it', () => {
    const { letter } = sheet.cautions.find(({ text }) => text === FUSE_CAUTION)!;
    expect(answer(2, '1 ohm')).toContain(`[${letter}]`);
  });
  test('when nothing in the drawing fits then that is said', () => {
    expect(answer(3, 'about 0.0 V')).toContain('NOT IN THIS DRAWING');
  });
  test('when the tree has no test at all then its end stands alone', () => {
    const alone = treeSheet(circuit, [], leaf('repair', repair('H1', 'replace H1', 1)));
    expect(alone).toMatchObject({ steps: [], end: 'Replace H1 (8 min)', minutes: 0 });
  });
});
