/** Whatever is typed gets an answer: the property behind "bad input gets a clear error and loses nothing". */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decide } from '../../src/session/decide.js';
import { foldCase } from '../../src/session/fold.js';
import { HELP, parseLine } from '../../src/session/parse-line.js';
import { bench, recordLines } from './bench-circuit.js';

const before = recordLines(['gear reverse', 'unplug X3', 'volts X3.1h 12.4', 'out F4', 'jumper S1']);
const usages = HELP.flatMap(([, lines]) => lines.map(([usage]) => usage));
const words = [
  ...new Set(usages.flatMap((usage) => usage.split(' '))),
  ...[
    'when',
    'symptom',
    'late',
    '3',
    'red',
    'bat-',
    'X3.1h',
    'F4.1i',
    'H2.54',
    'W3',
    'OL',
    '1k2',
    '11,4/12',
    '/',
    ',',
  ],
  ...[
    'constructor',
    '__proto__',
    'toString',
    'hasOwnProperty',
    '=',
    ';',
    ':',
    '#',
    '\u202e',
    '\u001b[31m',
    'µ',
    '∞',
    '1e999',
  ],
];

const typed = fc.oneof(
  fc.array(fc.constantFrom(...words), { maxLength: 9 }).map((list) => list.join(' ')),
  fc
    .tuple(fc.constantFrom(...usages), fc.nat(40), fc.constantFrom(...words, ''), fc.nat(3))
    .map(([usage, at, word, cut]) => usage.slice(0, at) + word + usage.slice(at + cut)),
  fc.string({ unit: 'binary', maxLength: 60 }),
);

test('when anything at all is typed then it is understood, or refused with a place in the line and a mend', () => {
  fc.assert(
    fc.property(typed, (line) => {
      const parsed = parseLine(line, bench, before);
      if (parsed.kind === 'error') {
        expect(parsed.at).toBeGreaterThanOrEqual(0);
        expect(parsed.at).toBeLessThanOrEqual(line.length);
        expect(parsed.message).not.toBe('');
        expect(parsed.mend).not.toBe('');
      }
      if (parsed.kind !== 'events') return;
      expect(parsed.events.length).toBeGreaterThan(0);
      expect(parsed.echo).toHaveLength(parsed.events.length);
      // What is understood survives the journal unchanged, may follow what is there, and folds.
      expect(JSON.parse(JSON.stringify(parsed.events))).toEqual(parsed.events);
      expect(decide(bench, before, parsed.events).ok).toBe(true);
      foldCase(bench, [
        ...before,
        ...parsed.events.map((event, i) => ({ number: before.length + i + 1, at: '', event })),
      ]);
    }),
    { seed: 7, numRuns: 10_000 },
  );
});

test('when a line is longer than a person types then it is refused, not read', () => {
  expect(parseLine(`note ${'x'.repeat(1995)}`, bench).kind).toBe('events');
  expect(parseLine(`note ${'x'.repeat(1996)}`, bench)).toMatchObject({ kind: 'error', at: 2000 });
});
