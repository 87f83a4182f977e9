/** A person's own costs: the same keys as `costs:` in a circuit file, in a file of their own. */
import { readCosts, type CostsDocument, type GivenCosts } from '../circuit/costs.js';
import { sorted, type Diagnostic } from '../circuit/diagnostic.js';
import { Mistakes } from '../circuit/mistakes.js';
import { schemaCheck, type SchemaCheck } from '../circuit/schema-check.js';
import { COSTS_SCHEMA } from '../circuit/schema-costs.js';
import { readTextFile } from './text-file.js';
import { readYaml } from './yaml-source.js';

export type CostsFile =
  | { readonly costs: GivenCosts }
  /** At least one error, sorted by place. */
  | { readonly problems: readonly Diagnostic[]; readonly source: string };

let compiled: SchemaCheck | undefined;

/** Reads and checks a file of costs. Never throws: a file that cannot be read is a problem like any other. */
export async function readCostsFile(path: string): Promise<CostsFile> {
  const file = await readTextFile(path);
  return 'problems' in file ? file : parseCosts(file.text);
}

/** Checks the text of a file of costs. Never throws on any text. */
export function parseCosts(source: string): CostsFile {
  const yaml = readYaml(source);
  if ('problems' in yaml) return { problems: yaml.problems, source };
  const { value, ranges } = yaml.document;
  compiled ??= schemaCheck(COSTS_SCHEMA);
  const shape = compiled(value, ranges);
  if (shape.length > 0) return { problems: sorted(shape), source };
  const mistakes = new Mistakes();
  const costs = readCosts(value as CostsDocument, '', ranges, mistakes);
  return mistakes.errors > 0 ? { problems: sorted(mistakes.list), source } : { costs };
}
