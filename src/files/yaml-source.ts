/**
 * Text → document with positions, for every kind of file a person writes in YAML (circuits, sessions).
 *
 * The text may be hostile: nesting is limited before anything recursive runs, aliases, anchors, tags, directives and second
 * documents are refused, and the values come out as plain text, lists and prototype-less objects. Nothing is converted:
 * `12`, `12.0`, `on` and `0x1F` stay the text a person sees, which the step of a reading's last digit needs anyway.
 *
 * To read another kind of file: `readYaml(text)`, then `schemaCheck(schema)(document.value, document.ranges)` from
 * src/circuit/schema-check.ts, then own rules that point at `ranges.key('/a/0/b')` or `ranges.value(...)`.
 */
import {
  Composer,
  CST,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  Parser,
  type Document,
  type Node,
  type YAMLError,
} from 'yaml';
import {
  pointer,
  sorted,
  type Diagnostic,
  type DiagnosticCode,
  type Range,
  type Ranges,
} from '../circuit/diagnostic.js';
import { openingFinder } from './yaml-openings.js';
import { plainWords } from './yaml-words.js';

/** A value from a file: text, list or object (without prototype, so no name can be special). Empty = `''`. */
export type YamlValue = string | YamlValue[] | { [name: string]: YamlValue };

export interface YamlDocument {
  readonly value: YamlValue;
  readonly ranges: Ranges;
}

export type YamlResult = { readonly document: YamlDocument } | { readonly problems: Diagnostic[] };

/** Deepest nesting of lists and groups; a circuit needs six. */
const DEEPEST = 64;
const MOST_PROBLEMS = 50;
/** Most pieces (names, values, signs, blanks between them): twice what the largest circuit has. */
const MOST_PIECES = 500_000;

/** Reads one YAML 1.2 document. Never throws on any text. */
export function readYaml(text: string): YamlResult {
  const problem = (
    code: DiagnosticCode,
    start: number,
    end: number,
    message: string,
    mend: string,
  ): YamlResult => ({
    problems: [{ code, severity: 'error', range: { start, end }, message, mend }],
  });
  const control = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u0084\u0086-\u009f]/.exec(text);
  if (control) {
    const at = control.index;
    return problem(
      'control-character',
      at,
      at + 1,
      'an invisible control character stands here',
      'delete it and type the line again; save the file as plain text',
    );
  }

  const tokens: CST.Token[] = [];
  const refused: Diagnostic[] = [];
  const refuse = (start: number, source: string, [message, mend]: readonly [string, string]) =>
    refused.push({
      code: 'not-used-here',
      severity: 'error',
      range: { start, end: start + Math.max(1, source.length) },
      message,
      mend,
    });
  const parser = new Parser();
  let scalar = false;
  let begun = 0;
  let pieces = 0;
  for (const lexeme of new Lexer().lex(text)) {
    const type: CST.TokenType | null = scalar ? null : CST.tokenType(lexeme);
    const at = parser.offset;
    scalar = type === 'scalar';
    if (type && type in NOT_USED) refuse(at, lexeme, NOT_USED[type as keyof typeof NOT_USED]);
    // A second `---`, or one after content, begins a second document.
    if (
      type === 'doc-start' &&
      (begun++ > 0 || tokens.some((token) => token.type === 'document') || hasContent(parser))
    ) {
      refuse(at, lexeme, [
        'a second document begins here',
        'keep one circuit or session in a file: delete the --- line',
      ]);
    }
    tokens.push(...parser.next(lexeme));
    if (parser.stack.length > DEEPEST) {
      return problem(
        'too-deep',
        at,
        at + 1,
        `more than ${DEEPEST} lists or groups stand inside each other here`,
        'close the [ and { that were opened, or indent less',
      );
    }
    if (refused.length >= MOST_PROBLEMS) break;
    if (++pieces > MOST_PIECES) {
      return problem(
        'too-big',
        at,
        at + 1,
        `more than ${MOST_PIECES / 1000} thousand names, values and signs come before this place`,
        'check that it is the right file; a circuit needs far fewer',
      );
    }
  }
  if (refused.length > 0) return { problems: sorted(refused) };
  tokens.push(...parser.end());
  return compose(tokens, text);
}

const NOT_USED = {
  'directive-line': [
    'a line that begins with % is a YAML directive, which is not used here',
    'delete the line',
  ],
  anchor: [
    '& at the start of a value is a YAML anchor, which is not used here',
    'put the value in quotes, or delete the &',
  ],
  alias: [
    '* at the start of a value is a YAML alias, which is not used here',
    'put the value in quotes, or write it out in full',
  ],
  tag: [
    '! at the start of a value is a YAML tag, which is not used here',
    'put the value in quotes, or delete the !',
  ],
} as const;

/** Is the parser already inside a value of the first document? */
function hasContent(parser: Parser): boolean {
  const [bottom] = parser.stack;
  return bottom?.type === 'document' && (bottom.value !== undefined || parser.stack.length > 1);
}

function compose(tokens: CST.Token[], text: string): YamlResult {
  const composer = new Composer({
    schema: 'failsafe',
    version: '1.2',
    strict: true,
    // Own check below: the library's compares every pair of keys, which a file of 100,000 keys turns into minutes.
    uniqueKeys: false,
    logLevel: 'silent',
    prettyErrors: false,
  });
  const documents = [...composer.compose(tokens, true, text.length)] as Document.Parsed[];
  const opened = openingFinder(text);
  const problems: Diagnostic[] = documents
    .flatMap((one) => firstSlip(one.errors))
    .slice(0, MOST_PROBLEMS)
    .map(
      (error) => ({ code: 'bad-yaml', severity: 'error', ...plainWords(error, text, opened) }) as Diagnostic,
    );
  const [document] = documents;
  if (documents.length > 1) {
    const start = documents[1]!.range?.[0] ?? 0;
    problems.push({
      code: 'not-used-here',
      severity: 'error',
      range: { start, end: start + 1 },
      message: 'a second document begins here',
      mend: 'keep one circuit or session in a file',
    });
  }
  const positions = new Map<string, { key: Range; value: Range }>();
  const value = convert(document?.contents ?? null, '', positions, problems, text);
  if (problems.length > 0) return { problems: firstPerLine(sorted(problems), text) };
  if (value === '') {
    return {
      problems: [
        {
          code: 'bad-yaml',
          severity: 'error',
          range: { start: 0, end: Math.min(1, text.length) },
          message: 'the file is empty',
          mend: 'start from one of the circuits that come with the program',
        },
      ],
    };
  }
  return { document: { value, ranges: rangesOf(positions) } };
}

/** After one line in the wrong column the library finds every line below it wrong; tabs are all worth telling. */
function firstSlip(errors: readonly YAMLError[]): YAMLError[] {
  let slipped = false;
  return errors.filter(({ code, message }) => {
    const column = code === 'BAD_INDENT' && !/end with a/.test(message);
    if (column && slipped) return false;
    slipped ||= column || code === 'TAB_AS_INDENT';
    return true;
  });
}

/** One slip in punctuation makes the library complain several times on the same line; the first is the one to mend. */
function firstPerLine(problems: readonly Diagnostic[], text: string): Diagnostic[] {
  let end = -1;
  return problems.filter((one) => {
    if (one.code !== 'bad-yaml') return true;
    if (one.range.start <= end) return false;
    const next = text.indexOf('\n', one.range.start);
    end = next < 0 ? text.length : next;
    return true;
  });
}

function convert(
  node: Node | null,
  at: string,
  positions: Map<string, { key: Range; value: Range }>,
  problems: Diagnostic[],
  text: string,
  key?: Range,
): YamlValue {
  // An empty list item has no text of its own, but a place.
  const empty = node?.range?.[0] ?? 0;
  const range = rangeOf(node, text) ?? key ?? { start: empty, end: empty };
  positions.set(at, { key: key ?? range, value: range });
  if (isSeq(node)) {
    return node.items.map((item, index) =>
      convert(item as Node | null, `${at}/${index}`, positions, problems, text),
    );
  }
  if (isMap(node)) {
    const group = Object.create(null) as { [name: string]: YamlValue };
    for (const pair of node.items) {
      const keyNode = pair.key as Node | null;
      const where = rangeOf(keyNode, text) ?? range;
      if (!isScalar(keyNode) && keyNode !== null) {
        problems.push({
          code: 'bad-yaml',
          severity: 'error',
          range: where,
          message: 'a list or group stands where a name should be',
          mend: 'write name: value, and put quotes around a value that begins with [ or {',
        });
        continue;
      }
      const name = String((isScalar(keyNode) ? keyNode.value : '') ?? '');
      if (Object.hasOwn(group, name)) {
        if (problems.length >= MOST_PROBLEMS) continue;
        problems.push({
          code: 'duplicate-key',
          severity: 'error',
          range: where,
          message: `“${name}” is written twice in the same group`,
          mend: 'delete one of the two, or give it another name',
        });
        continue;
      }
      group[name] = convert(pair.value as Node | null, at + pointer(name), positions, problems, text, where);
    }
    return group;
  }
  return isScalar(node) ? String(node.value ?? '') : '';
}

function rangeOf(node: Node | null, text: string): Range | undefined {
  if (!node?.range) return undefined;
  const [start, end] = node.range;
  if (end > start) {
    // A block value's end lies on the next line; a caret under trailing blanks says nothing.
    let stop = end;
    while (stop > start + 1 && /[ \t\r\n]/.test(text[stop - 1]!)) stop--;
    return { start, end: stop };
  }
  return isScalar(node) ? undefined : { start, end };
}

function rangesOf(positions: ReadonlyMap<string, { key: Range; value: Range }>): Ranges {
  const find = (at: string): { key: Range; value: Range } => {
    for (let path = at; ; path = path.slice(0, path.lastIndexOf('/'))) {
      const found = positions.get(path);
      if (found) return found;
      if (path === '') return { key: { start: 0, end: 0 }, value: { start: 0, end: 0 } };
    }
  };
  return { key: (at) => find(at).key, value: (at) => find(at).value };
}
