/** Mistakes in exercise files, each at its place and with its mend. */
import { expect, test } from 'vitest';
import { printDiagnostics } from '../../src/circuit/print-diagnostic.js';
import { parseExercise } from '../../src/files/exercise-file.js';
import { isProved, seal, unseal } from '../../src/files/seal.js';

const FILE = `exercise: 1
id: test
title: Test
circuit: reversing-lamps.yaml
concern: It is dark.
complaint:
  - fails H1 when key on, gear reverse
faults:
  - {fault: X3.1 resistance, severity: open}
seed: 3
`;

async function said(text: string): Promise<string> {
  const loaded = await parseExercise(text, 'circuits/test.yaml');
  return 'problems' in loaded
    ? printDiagnostics(loaded.source, 'test.yaml', loaded.problems).join('\n')
    : 'fine';
}

test('when a file is in order then it loads', async () => {
  expect(await said(FILE)).toBe('fine');
});

test.each([
  ['fault: X3.1 resistance', 'fault: X3.9 resistance', '9:13', 'no fault “X3.9 resistance”'],
  ['severity: open', 'severity: 4 V', '9:40', 'not a resistance'],
  ['severity: open', 'severity: 5000000 kohm', '9:40', 'too large'],
  ['fails H1 when', 'fails Q1 when', '7:5', 'no load "Q1"'],
  ['fails H1 when', 'works H1 when', '6:1', 'nothing fails'],
  ['fails H1 when', 'fails H2 when', '7:5', 'comes out as “H2 lit”'],
  ['fails H1 when', 'volts H1.1 0 when', '7:5', 'does not say what a load does'],
  ['seed: 3\n', '', '1:1', 'no “seed”'],
  ['seed: 3\n', 'seed: 3\nplaces: {atic: 3 min}\n', '11:10', 'no place “atic”'],
  ['seed: 3\n', 'seed: 3\nmarking: {found: 90}\n', '11:1', 'add up to 90'],
  ['seed: 3\n', 'seed: 3\ntools: [hammer]\n', '11:9', 'cannot be “hammer”'],
  ['seed: 3\n', 'seed: 3\nbudget: {minutes: 30}\n', '11:19', 'no unit'],
  ['seed: 3\n', 'seed: 3\ndraw: {seed: 3, difficulty: 2}\n', '11:1', 'given and drawn'],
  ['circuit: reversing-lamps.yaml', 'circuit: nowhere.yaml', '4:10', 'cannot be used'],
  ['title: Test', 'titel: Test', '3:1', 'no entry called “titel”'],
])('when %s is written as %s then the place is %s', async (from, to, place, words) => {
  const text = await said(FILE.replace(from, to));
  expect(text).toContain(`test.yaml:${place}: error`);
  expect(text).toContain(words);
});

test('when any sign of seal, tag or open text is changed then the seal refuses', () => {
  const made = seal('open text', '{"secret": 1}', 'a key phrase');
  expect(unseal('open text', made)).toBe('{"secret": 1}');
  expect(unseal('open texT', made)).toBeUndefined();
  const other = (text: string) => (text[0] === 'A' ? 'B' : 'A') + text.slice(1);
  for (const part of ['salt', 'nonce', 'tag', 'text'] as const)
    expect(unseal('open text', { ...made, [part]: other(made[part]) })).toBeUndefined();
  expect(unseal('open text', { ...made, tag: made.tag.slice(0, 8) })).toBeUndefined();
});

test('when the key phrase is another one, or the open text is changed, then the proof fails', () => {
  const made = seal('open text', 'secret', 'a key phrase');
  expect(isProved('open text', made, 'a key phrase')).toBe(true);
  expect(isProved('open text', made, 'a key phrasE')).toBe(false);
  expect(isProved('open texT', made, 'a key phrase')).toBe(false);
  expect(isProved('open text', { ...made, proof: '' }, 'a key phrase')).toBe(false);
});
