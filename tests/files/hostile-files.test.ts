/** Files made to hurt: deep, huge, self-referring, badly named. None may throw, hang, or end up other than refused or read. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { printDiagnostics } from '../../src/circuit/print-diagnostic.js';
import { parseCircuit } from '../../src/files/circuit-file.js';
import { MOST_BYTES } from '../../src/files/text-file.js';
import { readYaml } from '../../src/files/yaml-source.js';

const valid = readFileSync(new URL('../../circuits/reversing-lamps.yaml', import.meta.url), 'utf8');

/** Messages of the refusal; empty when the file was read. Prints them as well, because printing must survive too. */
function refused(text: string): string[] {
  const result = parseCircuit(text);
  if (!('problems' in result)) return [];
  expect(printDiagnostics(text, 'hostile.yaml', result.problems).length).toBeGreaterThan(1);
  return result.problems.map(({ message }) => message);
}

const DEEP = /more than 64 lists or groups/;
const many = (count: number, make: (index: number) => string) =>
  Array.from({ length: count }, (_, i) => make(i)).join('');

describe('a file that nests without end', () => {
  it.each([
    ['[', many(500_000, () => '[')],
    ['{', many(500_000, () => '{')],
    ['[ closed again', '['.repeat(200_000) + ']'.repeat(200_000)],
    ['{a: ', many(200_000, () => '{a: ')],
    ['[{', many(200_000, () => '[{')],
    ['- ', many(300_000, () => '- ')],
    ['? ', many(300_000, () => '? ')],
    ['? - ', many(200_000, () => '? - ')],
    ['indentation', many(1000, (index) => `${' '.repeat(index)}a:\n`)],
    ['lists by indentation', many(1000, (index) => `${' '.repeat(index)}-\n`)],
  ])('when it repeats %s then it is refused, twice in one process', (_what, text) => {
    for (let time = 0; time < 2; time++) expect(refused(text)[0]).toMatch(DEEP);
  });

  it('when it nests 60 deep then it is read', () => {
    expect(readYaml(`a: ${'['.repeat(60)}x${']'.repeat(60)}\n`)).toHaveProperty('document');
  });
});

describe('a file that uses what YAML offers beyond text, lists and groups', () => {
  it('when aliases would multiply then the first anchor is refused', () => {
    const laughs = many(20, (index) => `a${index}: &a${index} [*a${index - 1}, *a${index - 1}]\n`);
    expect(refused(laughs)[0]).toMatch(/YAML anchor/);
  });

  it.each([
    ['an alias to itself', 'a: &a [*a]\n', /anchor/],
    ['a merge key', '<<: *base\n', /alias/],
    ['a tag of another language', 'a: !!js/function "x"\n', /tag/],
    ['a tag without a name', 'a: ! x\n', /tag/],
    ['a verbatim tag', 'a: !<tag:yaml.org,2002:str> x\n', /tag/],
    ['a version', '%YAML 1.2\n---\na: 1\n', /directive/],
    ['a tag prefix', '%TAG ! tag:x:\n---\na: 1\n', /directive/],
    ['a directive after the content', 'a: 1\n...\n%YAML 1.1\n---\nb: 1\n', /directive/],
    ['a second document', 'a: 1\n---\nb: 1\n', /second document/],
    ['a second document after dots', 'a: 1\n...\nb: 1\n', /second document/],
    ['many documents', '---\n'.repeat(250_000), /second document/],
    ['a list as a key', '? [a, b]\n: c\n', /where a name should be/],
    ['a group as a key', '{{a: b}: c}\n', /where a name should be/],
    ['a NUL', 'a: \0\n', /control character/],
    ['a terminal sequence', 'a: \u001b[2J\n', /control character/],
    ['a C1 control', 'a: \u009b2J\n', /control character/],
  ])('when it holds %s then that is refused in plain words', (_what, text, words) => {
    expect(refused(text)[0]).toMatch(words);
  });

  it('when it begins with a plain --- then it is read like any other', () => {
    expect(parseCircuit(`---\n${valid}`)).toHaveProperty('circuit');
  });
});

describe('a file with names that mean something to JavaScript', () => {
  const names = ['__proto__', 'constructor', 'prototype', 'toString', 'hasOwnProperty', 'valueOf'];

  it.each(names)('when a key is %s then it is an unknown entry and nothing else', (name) => {
    const before = Object.getOwnPropertyNames(Object.prototype).join();
    expect(refused(`${name}: {polluted: yes}\n${valid}`)).toEqual([`the file has no entry called “${name}”`]);
    expect(refused(valid.replace('rating: 10 A', `rating: 10 A, ${name}: 1`))).toEqual([
      `F7 has no entry called “${name}”`,
    ]);
    expect(Object.getOwnPropertyNames(Object.prototype).join()).toBe(before);
    expect(({} as Record<string, unknown>)['polluted']).toBeUndefined();
  });

  it.each(names)(
    'when a part, a control and a place are called %s then they are looked up like any other',
    (name) => {
      const asControl = valid.replace('gear:', `${name}:`).replace('control: gear', `control: ${name}`);
      const asPlace = valid.replaceAll(/place: loom|loom:/g, (found) => found.replace('loom', name));
      if (name === '__proto__') {
        expect(refused(asControl)).not.toEqual([]);
        expect(refused(asPlace)).not.toEqual([]);
      } else {
        expect(refused(asControl)).toEqual([]);
        expect(refused(asPlace)).toEqual([]);
      }
      expect(refused(valid.replace('control: gear', `control: ${name}`))[0]).toMatch(
        /no control of that name|will not do/,
      );
      expect(refused(valid.replace('type: fuse', `type: ${name}`))[0]).toMatch(/no kind of part called/);
      expect(refused(valid.replace('from: F7.2', `from: ${name}.2`))[0]).toMatch(/no part called/);
    },
  );
});

describe('a file that is very large', () => {
  const fill = (line: (index: number) => string) => {
    let text = '';
    for (let index = 0; text.length < MOST_BYTES - 400; index++) text += line(index);
    return text;
  };

  it.each([
    ['keys', fill((index) => `k${index}: v\n`)],
    ['the same key', fill(() => 'a: 1\n')],
    ['unknown parts', `parts:\n${fill((index) => `  P${index}: {typ: lamp}\n`)}`],
    [
      'wires to nowhere',
      valid + fill((index) => `  - {from: A${index}.1, to: B.2, size: 1 mm2, length: 1 m}\n`),
    ],
    ['empty entries', `wires: [${','.repeat(MOST_BYTES - 100)}]\n`],
    ['one long name', `${'a'.repeat(MOST_BYTES - 100)}: 1\n`],
    ['one long value', valid.replace('Reversing lamps, switch', 'x'.repeat(MOST_BYTES - 5000))],
    ['mistakes on one line', `{${fill((index) => `k${index}: [, `)}`],
    ['quotes never closed', fill(() => '"a: \n')],
    ['colons', fill(() => 'a: b: c\n')],
    ['tabs', fill(() => '\ta: b\n')],
    ['blanks', `a: 1${' '.repeat(MOST_BYTES - 100)}\n`],
    ['line ends', `a: 1${'\n'.repeat(MOST_BYTES - 100)}`],
    ['carriage returns', `a: 1${'\r'.repeat(MOST_BYTES - 100)}`],
    ['comment signs', '#'.repeat(MOST_BYTES - 100)],
    ['a block of text', `a: |\n${fill(() => '  text\n')}`],
    ['digits', valid.replace('rating: 10 A', `rating: ${'9'.repeat(MOST_BYTES - 10_000)} A`)],
  ])('when it is full of %s then it is refused, briefly', (_what, text) => {
    const result = parseCircuit(text);
    expect(result).toHaveProperty('problems');
    if (!('problems' in result)) return;
    const printed = printDiagnostics(text, 'large.yaml', result.problems);
    expect(printed.length).toBeLessThanOrEqual(81);
    expect(Math.max(...printed.map((line) => line.length))).toBeLessThan(2000);
  });

  it('when it is a sound circuit of 2,000 parts then it is read', () => {
    const lamps = 660;
    const parts = many(
      lamps,
      (n) =>
        `  F${n}: {type: fuse, rating: 1 A, place: box}\n` +
        `  S${n}: {type: switch, control: key${n % 20}, place: box, contacts: [{between: [1, 2], closed: [on]}]}\n` +
        `  H${n}: {type: lamp, watts: 21 W, place: box}\n`,
    );
    const wires = many(
      lamps,
      (n) =>
        `  - {from: SP, to: F${n}.1, size: 1 mm2, length: 1 m}\n` +
        `  - {from: F${n}.2, to: S${n}.1, size: 1 mm2, length: 1 m}\n` +
        `  - {from: S${n}.2, to: H${n}.1, size: 1 mm2, length: 1 m}\n` +
        `  - {from: H${n}.31, to: GP, size: 1 mm2, length: 1 m}\n`,
    );
    const controls = many(20, (n) => `  key${n}: [off, on]\n`);
    const text =
      `circuit: large\ntitle: Large\nnominal: 12 V\nplaces: {box: 1 min}\ncontrols:\n${controls}parts:\n` +
      `  G1: {type: battery, place: box}\n  SP: {type: splice, place: box}\n  GP: {type: ground, place: box}\n${parts}` +
      `wires:\n  - {from: G1.30, to: SP, size: 16 mm2, length: 1 m}\n  - {from: G1.31, to: GP, size: 16 mm2, length: 1 m}\n${wires}`;
    const result = parseCircuit(text);
    expect('circuit' in result && result.circuit.parts.size).toBe(3 * lamps + 3);
    expect('circuit' in result && result.advice.length).toBe(lamps);
  });
});
