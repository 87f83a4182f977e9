/** The published schema, as an editor or another program would use it: on values read by an ordinary YAML reader. */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CIRCUIT_SCHEMA } from '../../src/circuit/schema.js';

const folder = new URL('../../circuits/', import.meta.url);
const circuits = readdirSync(folder).map(
  (name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const,
);
// `discriminator` is known to some validators only; the others must come to the same result without it.
const withIt = new Ajv2020({ discriminator: true, allowUnionTypes: true, strictRequired: false });
const without = new Ajv2020({ strict: false });

describe('the published circuit schema', () => {
  it('when it is printed and read back then it is the same, and valid JSON Schema', () => {
    expect(JSON.parse(JSON.stringify(CIRCUIT_SCHEMA))).toEqual(CIRCUIT_SCHEMA);
    expect(withIt.validateSchema(CIRCUIT_SCHEMA)).toBe(true);
  });

  it.each(circuits)('when %s is read with numbers and booleans then it fits', (_name, text) => {
    for (const ajv of [withIt, without]) {
      const validate = ajv.compile({ ...CIRCUIT_SCHEMA, $id: undefined });
      validate(parse(text));
      expect(validate.errors).toBeNull();
    }
  });

  it.each([
    ['an unknown key of a part', ['parts', 'F7', 'colour'], 'red'],
    ['a part of no kind', ['parts', 'F7', 'type'], 'fusible'],
    ['a key at the top', ['wire'], []],
    ['a wire without an end', ['wires', '0', 'to'], undefined],
    ['one position', ['controls', 'key'], ['off']],
  ] as const)('when a file has %s then it does not fit', (_what, path, value) => {
    const [, text] = circuits.find(([name]) => name === 'reversing-lamps.yaml')!;
    const document = parse(text);
    let group = document;
    for (const name of path.slice(0, -1)) group = group[name];
    if (value === undefined) delete group[path.at(-1)!];
    else group[path.at(-1)!] = value;
    expect(without.compile({ ...CIRCUIT_SCHEMA, $id: undefined })(document)).toBe(false);
  });
});
