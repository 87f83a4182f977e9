/** What an instructor changes in the marks, each with its reason. */
import { sorted, type Diagnostic } from '../circuit/diagnostic.js';
import { schemaCheck, type SchemaCheck } from '../circuit/schema-check.js';
import { readTextFile } from './text-file.js';
import { readYaml } from './yaml-source.js';

export interface GivenOverride {
  /** File name of the journal. */
  readonly journal: string;
  /** Added to the marks; below 0 takes away. */
  readonly marks: number;
  readonly reason: string;
  readonly event: number | undefined;
}

export type OverrideFile =
  | { readonly overrides: readonly GivenOverride[] }
  | { readonly problems: readonly Diagnostic[]; readonly source: string };

const words = (most: number, description: string) => ({
  type: ['string', 'number'],
  minLength: 1,
  maxLength: most,
  pattern: '^[^\\p{Cc}]*$',
  description,
});

export const OVERRIDES_SCHEMA = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:knowngood:overrides:1',
  title: 'knowngood overrides',
  type: 'object',
  additionalProperties: false,
  required: ['overrides'],
  properties: {
    overrides: {
      type: 'array',
      maxItems: 2000,
      description: 'a list like - {journal: anna.journal, marks: 5, reason: the meter was dropped}',
      items: {
        type: 'object',
        additionalProperties: false,
        required: ['journal', 'marks', 'reason'],
        description: 'an override like {journal: anna.journal, marks: 5, reason: the meter was dropped}',
        properties: {
          journal: words(400, 'the file name of the journal'),
          marks: {
            type: ['number', 'string'],
            pattern: '^[+-]?[0-9]{1,3}([.][0-9])?$',
            description: 'the marks to add, like 5 or -5',
          },
          event: {
            type: ['integer', 'string'],
            pattern: '^[1-9][0-9]{0,8}$',
            description: 'the number of the event it is about',
          },
          reason: words(400, 'the reason in words'),
        },
      },
    },
  },
} as const;

let compiled: SchemaCheck | undefined;

export async function readOverrides(path: string): Promise<OverrideFile> {
  const file = await readTextFile(path);
  if ('problems' in file) return file;
  const yaml = readYaml(file.text);
  if ('problems' in yaml) return { problems: yaml.problems, source: file.text };
  const { value, ranges } = yaml.document;
  compiled ??= schemaCheck(OVERRIDES_SCHEMA);
  const shape = compiled(value, ranges);
  if (shape.length > 0) return { problems: sorted(shape), source: file.text };
  const { overrides } = value as unknown as {
    overrides: readonly { journal: string; marks: string; event?: string; reason: string }[];
  };
  return {
    overrides: overrides.map(({ journal, marks, event, reason }) => ({
      journal,
      marks: Number(marks),
      reason,
      event: event === undefined ? undefined : Number(event),
    })),
  };
}
