/** Advice on a circuit file: each piece where it belongs, and none where nothing is wrong. */
import { describe, expect, test } from 'vitest';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import { readYaml } from '../../../src/files/yaml-source.js';
import { adviseOn } from '../../../src/planning/advice/advice.js';
import { placeOf } from '../../../src/circuit/print-diagnostic.js';
import { loaded } from '../../circuit/shelf.js';

/** Nothing to advise: two lamps on one fuse, every wire thick and short. */
const GOOD = `circuit: good
title: Two lamps
nominal: 12 V
controls:
  lights: [off, on]
places:
  front: 2 min
  column: {open: 20 min, hazard: airbag}
parts:
  G1: {type: battery, place: front}
  GP1: {type: ground, place: front}
  F1: {type: fuse, rating: 10 A, place: front}
  S1: {type: switch, control: lights, place: front, contacts: [{between: [1, 2], closed: [on]}]}
  SP1: {type: splice, place: front}
  H1: {type: lamp, watts: 21 W, place: front}
  H2: {type: lamp, watts: 5 W, place: front}
wires:
  - {from: G1.31, to: GP1, size: 16 mm2, length: 0.4 m}
  - {from: G1.30, to: F1.1, size: 10 mm2, length: 0.5 m}
  - {from: F1.2, to: S1.1, size: 1.5 mm2, length: 1 m}
  - {from: S1.2, to: SP1, size: 1.5 mm2, length: 2 m}
  - {from: SP1, to: H1.1, size: 1 mm2, length: 0.5 m}
  - {from: SP1, to: H2.1, size: 1 mm2, length: 0.5 m}
  - {from: H1.31, to: GP1, size: 1 mm2, length: 0.5 m}
  - {from: H2.31, to: GP1, size: 1 mm2, length: 0.5 m}
`;

function advice(text: string): readonly { code: string; line: number; message: string; mend: string }[] {
  const yaml = readYaml(text);
  if ('problems' in yaml) throw new Error('no YAML');
  return adviseOn(createWorkbench(loaded(text).circuit), yaml.document.ranges).map((one) => {
    expect(one.severity).toBe('advice');
    return { ...one, line: placeOf(text, one.range.start).line };
  });
}

const lineOf = (text: string, words: string): number => text.slice(0, text.indexOf(words)).split('\n').length;

test('when nothing is to be bettered then there is no advice', () => {
  expect(advice(GOOD)).toEqual([]);
});

describe.each([
  [
    'unfused-wire',
    'from: G1.30, to: F1.1, size: 10 mm2, length: 0.5',
    'from: G1.30, to: F1.1, size: 6 mm2, length: 0.5',
    'W2 (G1.30 to F1.1, 6 mm2)',
  ],
  ['thin-for-fuse', 'rating: 10 A', 'rating: 20 A', '20 A wants 1.5 mm2'],
  ['thin-wire', 'size: 1.5 mm2, length: 2 m', 'size: 1 mm2, length: 9 m', 'practice allows 0.20 V'],
  [
    'alike-faults',
    'S1: {type: switch, control: lights, place: front',
    'S1: {type: switch, control: lights, place: column',
    'S1.1 is beside an airbag',
  ],
])('%s', (code, good, worse, says) => {
  test('when a file has it then it is told once, at its line, with how to mend it', () => {
    const text = GOOD.replace(good, worse);
    expect(text).not.toBe(GOOD);
    const found = advice(text).filter((one) => one.code === code);
    expect(found).toHaveLength(1);
    expect(`${found[0]!.message} ${found[0]!.mend}`).toContain(says);
    expect(found[0]!.line).toBe(lineOf(text, worse));
  });
});

test('when a fuse feeds one load only then nothing tells whether that fuse is good', () => {
  const one = GOOD.replace('  SP1: {type: splice, place: front}\n', '')
    .replace('  H2: {type: lamp, watts: 5 W, place: front}\n', '')
    .replace('{from: S1.2, to: SP1', '{from: S1.2, to: H1.1')
    .split('\n')
    .filter((line) => !/SP1|H2/.test(line))
    .join('\n');
  expect(advice(one).map(({ code }) => code)).toEqual(['no-witness']);
});

test('when the wire up to the fuse holder is short then it needs no fuse of its own', () => {
  expect(advice(GOOD.replace('size: 10 mm2, length: 0.5', 'size: 2.5 mm2, length: 0.2'))).toEqual([]);
});

test('when a system has 24 V then a wire may lose twice as much', () => {
  const long = (volts: string): string =>
    GOOD.replace('nominal: 12 V', `nominal: ${volts}`).replace('length: 2 m', 'length: 11 m');
  const codes = (text: string): string[] => advice(text).map(({ code }) => code);
  expect(codes(long('12 V'))).toContain('thin-wire');
  expect(codes(long('24 V'))).not.toContain('thin-wire');
});
