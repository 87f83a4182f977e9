/**
 * Compares a document with a closed JSON Schema and says what is wrong in plain words. The words for what a value should
 * be are the schema's own `description`s, so that the published schema and the messages cannot drift apart.
 */
import { Ajv2020, type ErrorObject, type Schema } from 'ajv/dist/2020.js';
import { pointer, type Diagnostic, type DiagnosticCode, type Ranges } from './diagnostic.js';
import { didYouMean, nearest } from './nearest.js';

export type SchemaCheck = (document: unknown, ranges: Ranges) => Diagnostic[];

/** Compiles a schema once. The check returns at most a few hundred diagnostics, unsorted. */
export function schemaCheck(schema: Schema): SchemaCheck {
  const ajv = new Ajv2020({
    allErrors: true,
    ownProperties: true,
    discriminator: true,
    allowUnionTypes: true,
    strictRequired: false,
    verbose: true,
    messages: false,
  });
  const validate = ajv.compile(schema);
  return (document, ranges) => {
    if (validate(document)) return [];
    const errors = (validate.errors ?? []).slice(0, 300);
    const meant = new Set(errors.map(meantKey));
    return errors
      .filter((error) => error.keyword !== 'required' || !meant.has(missingKey(error)))
      .flatMap((error) => explain(error, ranges));
  };
}

/** Pointer of the required key that a mistyped one stands for: "unknown ratting" already says that rating is missing. */
function meantKey(error: ErrorObject): string | undefined {
  if (error.keyword !== 'additionalProperties') return undefined;
  const typed = String((error.params as Readonly<Record<string, unknown>>)['additionalProperty']);
  const known = Object.keys(((error.parentSchema ?? {}) as SchemaNode).properties ?? {});
  const near = nearest(typed.split(':')[0]!, known);
  return near === undefined ? undefined : error.instancePath + pointer(near);
}

function missingKey(error: ErrorObject): string {
  return (
    error.instancePath +
    pointer(String((error.params as Readonly<Record<string, unknown>>)['missingProperty']))
  );
}

interface SchemaNode {
  readonly description?: string;
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly oneOf?: readonly { readonly $ref?: string }[];
}

function explain(error: ErrorObject, ranges: Ranges): Diagnostic[] {
  const at = error.instancePath;
  const name = nameOf(at);
  const node = (error.parentSchema ?? {}) as SchemaNode;
  const should = node.description ?? 'something else';
  const params = error.params as Readonly<Record<string, unknown>>;
  const say = (
    code: DiagnosticCode,
    message: string,
    mend: string,
    range = ranges.value(at),
  ): Diagnostic[] => [{ code, severity: 'error', range, message, mend }];

  switch (error.keyword) {
    case 'additionalProperties': {
      const key = String(params['additionalProperty']);
      return say(
        'unknown-key',
        key.trim() === ''
          ? `${name} has an entry without a name`
          : /^\d/.test(key)
            ? `the comma before “${key}” cuts ${name} short`
            : `${name} has no entry called “${key}”`,
        mendKey(key, Object.keys(node.properties ?? {})),
        ranges.key(at + pointer(key)),
      );
    }
    case 'required': {
      const key = String(params['missingProperty']);
      const kinds = kindsOf(node);
      if (kinds.length > 0) {
        return say(
          'missing-key',
          `${name} has no “${key}”`,
          `add ${key}: and one of: ${kinds.join(', ')}`,
          ranges.key(at),
        );
      }
      const wanted = (node.properties?.[key] ?? {}) as SchemaNode;
      return say(
        'missing-key',
        `${name} has no “${key}”`,
        `add ${key}: followed by ${wanted.description ?? `the ${key}`}`,
        ranges.key(at),
      );
    }
    case 'discriminator': {
      const types = kindsOf(node);
      if (params['error'] === 'tag') {
        // A missing key is told by `required`.
        return params['tagValue'] === undefined
          ? []
          : say(
              'wrong-kind',
              `type of ${name} is not a word`,
              `write one of: ${types.join(', ')}`,
              ranges.key(`${at}/type`),
            );
      }
      const typed = String(params['tagValue']);
      return say(
        'unknown-name',
        `there is no kind of part called “${typed}”`,
        didYouMean(typed, types, 'kind of part'),
        ranges.value(`${at}/type`),
      );
    }
    case 'enum':
      return say(
        'bad-value',
        `${name} cannot be “${textOf(error.data)}”`,
        didYouMean(textOf(error.data), [...new Set((node.enum ?? []).map(String))], 'value'),
      );
    case 'pattern':
    case 'minLength':
    case 'maxLength':
      // The name of an entry is checked as a string of its own; propertyNames says which.
      if (error.propertyName !== undefined) {
        return say(
          'bad-value',
          `“${error.propertyName}” cannot be used as a name here`,
          `use ${should}`,
          ranges.key(at + pointer(error.propertyName)),
        );
      }
      if (error.keyword === 'pattern' && typeof error.data === 'string' && /\p{Cc}/u.test(error.data)) {
        return say(
          'control-character',
          `an invisible control character is hidden in ${name}`,
          'write it on one line, and delete the backslash and what belongs to it',
        );
      }
      return error.data === ''
        ? say('wrong-kind', `nothing is written after ${name}`, `write ${should}`, ranges.key(at))
        : say('bad-value', `“${textOf(error.data)}” will not do for ${name}`, `write ${should}`);
    case 'type':
      return error.data === ''
        ? say('wrong-kind', `nothing is written after ${name}`, `write ${should}`, ranges.key(at))
        : say('wrong-kind', `${name} is ${shapeOf(error.data)}`, `write ${should}`, ranges.key(at));
    case 'minItems':
    case 'maxItems':
    case 'minProperties':
    case 'maxProperties':
      return say(
        'bad-value',
        `${name} has too ${error.keyword.startsWith('min') ? 'few' : 'many'} entries`,
        `write ${should}`,
        ranges.key(at),
      );
    default:
      // propertyNames, if and oneOf only repeat what another error has said better.
      return [];
  }
}

/** The kinds a discriminated value can be of, by the names of their definitions. */
function kindsOf(node: SchemaNode): string[] {
  return (node.oneOf ?? []).map((one) => decodeURIComponent((one.$ref ?? '').split('/').at(-1)!));
}

/** Where a key is wrong, the reason is often punctuation that a reader of plain text would not miss. */
function mendKey(key: string, known: readonly string[]): string {
  const colon = /^([\w-]+):(.*)$/su.exec(key);
  if (colon) return `put a space after the colon: ${colon[1]}: ${colon[2]}`;
  if (/^\d/.test(key)) {
    return 'inside { } a comma ends an entry: write a decimal point (0.75) instead of a decimal comma';
  }
  const near = nearest(key, known);
  return near !== undefined ? `did you mean ${near}?` : `use one of: ${known.join(', ')}`;
}

/** Groups whose entries are named by their terminals: `/outputs/8` is output 8, while `/wires/2` is wire 3. */
const BY_TERMINAL: ReadonlySet<string> = new Set(['filaments', 'inputs', 'outputs', 'on']);

/** `/wires/2/size` as a person would say it: "size of wire 3". */
export function nameOf(at: string): string {
  if (at === '') return 'the file';
  const names = at
    .split('/')
    .slice(1)
    .map((name) => name.replaceAll('~1', '/').replaceAll('~0', '~'));
  const spoken: string[] = [];
  names.forEach((name, index) => {
    const list = names[index - 1];
    if (/^\d+$/.test(name) && list !== undefined) {
      spoken.pop();
      spoken.push(`${list.replace(/s$/, '')} ${BY_TERMINAL.has(list) ? name : Number(name) + 1}`);
    } else spoken.push(name);
  });
  const shown =
    spoken[0] === 'parts' || spoken[0] === 'controls' || spoken[0] === 'places' ? spoken.slice(1) : spoken;
  const words = shown.length === 0 ? spoken : shown;
  return words.length === 1 ? words[0]! : `${words.at(-1)} of ${words.slice(0, -1).reverse().join(' of ')}`;
}

function textOf(value: unknown): string {
  const text = typeof value === 'object' ? shapeOf(value) : String(value);
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

function shapeOf(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of entries';
  return `the text “${textOf(value)}”`;
}
