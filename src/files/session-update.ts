/** Rewrites what a session written by hand expects. Only the `expect` entry of the file changes; its comments stay. */
import { randomUUID } from 'node:crypto';
import { rename, rm, stat, writeFile } from 'node:fs/promises';
import { Document, isMap, isScalar, isSeq, parseDocument, Scalar, YAMLMap, YAMLSeq, type Node } from 'yaml';

/** A text, a list of names, or fault → range (undefined takes that one out). */
export type ExpectValue = string | readonly string[] | ReadonlyMap<string, string | undefined>;

/** The text with these entries of `expect` set; undefined takes one out. The text must have passed the session's checks. */
export function withExpectation(text: string, entries: ReadonlyMap<string, ExpectValue | undefined>): string {
  const document = parseDocument(text, { schema: 'failsafe', version: '1.2' });
  const root = document.contents as unknown as YAMLMap<Scalar, Node | null>;
  const pair = root.items.find(({ key }) => key.value === 'expect');
  const expect = isMap(pair?.value)
    ? (pair.value as YAMLMap<Scalar, Node | null>)
    : new YAMLMap<Scalar, Node | null>();
  for (const [key, value] of entries) setEntry(expect, key, value);
  // Begun with a list in braces, it would become one long line.
  if (expect.items.length > 3) expect.flow = false;
  const written = stringified(expect, text.includes('\r\n') ? '\r\n' : '\n');
  if (pair?.value?.range == null) {
    const end = pair?.key.range?.[0] ?? text.length;
    const before = text.slice(0, end);
    return `${before}${before === '' || before.endsWith('\n') ? '' : '\n'}${written}`;
  }
  return text.slice(0, pair.key.range![0]) + written + text.slice(pair.value.range[2]);
}

/** Replaces a file by this text: readers see the old one or the new one, whole. Rejects with the system's own error. */
export async function replaceFile(path: string, text: string): Promise<void> {
  const { mode } = await stat(path);
  const beside = `${path}.${randomUUID()}.new`;
  try {
    await writeFile(beside, text, { mode, flag: 'wx' });
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

function setEntry(group: YAMLMap<Scalar, Node | null>, key: string, value: ExpectValue | undefined): void {
  const pair = group.items.find((one) => one.key.value === key);
  if (value === undefined) {
    group.items = group.items.filter((one) => one !== pair);
    return;
  }
  const old = pair?.value;
  const node = nodeOf(value, old ?? null);
  if (pair === undefined) group.add({ key: new Scalar(key), value: node });
  else if (node === null) group.items = group.items.filter((one) => one !== pair);
  else pair.value = node;
}

/** Nodes of values that stay are kept, with the comments on them. */
function nodeOf(value: ExpectValue, old: Node | null): Node | null {
  if (typeof value === 'string') {
    const node = isScalar(old) ? old : new Scalar(value);
    node.value = value;
    return node;
  }
  if (value instanceof Map) {
    const group = isMap(old) ? (old as YAMLMap<Scalar, Node | null>) : new YAMLMap<Scalar, Node | null>();
    for (const [name, one] of value as ReadonlyMap<string, string | undefined>) setEntry(group, name, one);
    return group.items.length === 0 ? null : group;
  }
  const names = value as readonly string[];
  const list = isSeq(old) ? (old as YAMLSeq<Scalar>) : new YAMLSeq<Scalar>();
  if (!isSeq(old)) list.flow = true;
  const kept = new Map(list.items.map((item) => [String(item.value), item]));
  list.items = names.map((name) => kept.get(name) ?? new Scalar(name));
  return list;
}

function stringified(expect: YAMLMap<Scalar, Node | null>, lineEnd: string): string {
  const document = new Document(undefined, { schema: 'failsafe', version: '1.2' });
  const root = new YAMLMap<Scalar, Node | null>();
  root.add({ key: new Scalar('expect'), value: expect });
  document.contents = root as unknown as typeof document.contents;
  const text = document.toString({ lineWidth: 0, flowCollectionPadding: false, singleQuote: true });
  return text.replaceAll('\n', lineEnd);
}
