import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Document, Scalar, type ToStringOptions } from 'yaml';
import { readYaml, type YamlValue } from '../../src/files/yaml-source.js';
import { pointer } from '../../src/circuit/diagnostic.js';

type Value = string | Value[] | Map<string, Value>;

// Raw control characters are refused in a file; in quotes the writer turns them into escapes, which is another test.
const text = fc
  .string({ unit: 'grapheme', maxLength: 30 })
  .filter((one) => !/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\ufeff]/.test(one));
const word = fc.constantFrom(
  '30',
  '1.0',
  '0x1F',
  'on',
  'no',
  'null',
  '~',
  'true',
  '2024-01-01',
  '1e3',
  'a: b',
  '- a',
  '#',
  "it's",
  'say "so"',
);
const name = fc.oneof(text, word, fc.constantFrom('__proto__', 'constructor', 'a/b', 'a~b'));
const { value } = fc.letrec<{ value: Value }>((tie) => ({
  value: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    fc.oneof(text, word),
    fc.array(tie('value'), { maxLength: 4 }),
    fc.array(fc.tuple(name, tie('value')), { maxLength: 4 }).map((pairs) => new Map(pairs)),
  ),
}));
const style: fc.Arbitrary<ToStringOptions> = fc.record({
  // 'any' is the block style; with 'block' the writer sets an empty list under its name without indenting it.
  collectionStyle: fc.constantFrom('any' as const, 'flow' as const),
  defaultStringType: fc.constantFrom('PLAIN' as const, 'QUOTE_DOUBLE' as const, 'QUOTE_SINGLE' as const),
  indent: fc.integer({ min: 1, max: 6 }),
  indentSeq: fc.boolean(),
  lineWidth: fc.constantFrom(0, 20, 80),
  flowCollectionPadding: fc.boolean(),
  blockQuote: fc.constantFrom(true, false, 'folded' as const, 'literal' as const),
});

function write(root: Value, options: ToStringOptions): string {
  const schema = { schema: 'failsafe', aliasDuplicateObjects: false } as object;
  return new Document(quoteEmpty(root), schema).toString(options);
}

/** Without quotes an empty text in [ ] is no entry at all, and the writer of this schema never quotes it. */
function quoteEmpty(one: Value): unknown {
  if (one === '') return Object.assign(new Scalar(''), { type: 'QUOTE_DOUBLE' });
  if (typeof one === 'string') return one;
  if (Array.isArray(one)) return one.map(quoteEmpty);
  return new Map([...one].map(([key, inner]) => [quoteEmpty(key), quoteEmpty(inner)]));
}

function plain(one: Value): YamlValue {
  if (typeof one === 'string') return one;
  if (Array.isArray(one)) return one.map(plain);
  const group = Object.create(null) as { [name: string]: YamlValue };
  for (const [key, inner] of one) group[key] = plain(inner);
  return group;
}

describe('text, lists and groups written as YAML', () => {
  it('when any of them is written in any style and read again then it is the same', () => {
    fc.assert(
      fc.property(value, style, (root, options) => {
        const wrapped = new Map([['all', root]]);
        const source = write(wrapped, options);
        const result = readYaml(source);
        expect(JSON.stringify('document' in result ? result.document.value : result), source).toBe(
          JSON.stringify(plain(wrapped)),
        );
      }),
      { seed: 30, numRuns: 1000 },
    );
  });

  it('when a value has a range then the text there is that value', () => {
    fc.assert(
      fc.property(value, style, (root, options) => {
        const source = write(new Map([['all', root]]), { ...options, blockQuote: false });
        const result = readYaml(source);
        if (!('document' in result)) throw new Error(result.problems[0]!.message);
        const { ranges } = result.document;
        const visit = (one: Value, at: string): void => {
          if (Array.isArray(one)) one.forEach((inner, index) => visit(inner, at + pointer(index)));
          else if (one instanceof Map) {
            for (const [key, inner] of one) {
              const here = at + pointer(key);
              const range = ranges.key(here);
              if (key !== '' && !key.includes('\n'))
                expect(again(source.slice(range.start, range.end))).toBe(key);
              visit(inner, here);
            }
          } else if (one !== '') {
            const { start, end } = ranges.value(at);
            expect(again(source.slice(start, end))).toBe(one);
          }
        };
        visit(root, '/all');
      }),
      { seed: 31, numRuns: 700 },
    );
  });

  it('when quotes hide control characters behind escapes then they are read, for the printer to show', () => {
    const result = readYaml('a: "\\e[31m\\0\\x07"\n');
    expect('document' in result && result.document.value).toEqual({ a: '\u001b[31m\0\u0007' });
  });
});

function again(source: string): unknown {
  const result = readYaml(`- ${source}\n`);
  return 'document' in result ? (result.document.value as YamlValue[])[0] : result.problems[0]!.message;
}
