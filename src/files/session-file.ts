/**
 * Sessions written by hand: class scripts and test cases. Their steps go through the same grammar and the same rules as
 * what is typed, so a script proves what the program does and nothing else.
 */
import { createHash } from 'node:crypto';
import { dirname, resolve } from 'node:path';
import type { Circuit } from '../circuit/circuit.js';
import { pointer, sorted, type Diagnostic, type Range, type Ranges } from '../circuit/diagnostic.js';
import { placeOf } from '../circuit/print-diagnostic.js';
import { schemaCheck, type SchemaCheck } from '../circuit/schema-check.js';
import { decide, nextNumber } from '../session/decide.js';
import type { Concern, Event, Recorded } from '../session/events.js';
import { parseLine } from '../session/parse-line.js';
import { readCircuit } from './circuit-file.js';
import { eventFrom } from './event-object.js';
import { expectationOf, type ExpectDocument, type Expectation } from './session-expect.js';
import { SESSION_SCHEMA } from './session-schema.js';
import { readTextFile } from './text-file.js';
import { readYaml, type YamlValue } from './yaml-source.js';

export type { Expectation } from './session-expect.js';

export interface LoadedSession {
  readonly title: string;
  /** Where the case comes from, as the file says; may be empty. */
  readonly source: string;
  readonly circuit: Circuit;
  /** Full path of the circuit file. */
  readonly circuitFile: string;
  /** SHA-256 of the session's text with line ends as LF. */
  readonly hash: string;
  /** Event 1 is the opening, event 2 the concern where there is one; then the steps. */
  readonly recorded: readonly Recorded[];
  readonly expect: Expectation;
}

export interface RefusedSession {
  /** At least one, sorted by place. */
  readonly problems: readonly Diagnostic[];
  /** The text the problems point into. */
  readonly source: string;
}

/** As `program` in the opening of a session that no program recorded. */
export const BY_HAND = 'written by hand';

const MOST_PROBLEMS = 50;
let compiled: SchemaCheck | undefined;

interface SessionDocument {
  readonly title: string;
  readonly source?: string;
  readonly circuit: string;
  readonly concern?: Concern;
  readonly steps: readonly (string | { readonly [name: string]: YamlValue })[];
  readonly expect?: ExpectDocument;
}

/** Reads, checks and plays a session file. Never throws: whatever is wrong with the file is a problem like any other. */
export async function readSessionFile(path: string): Promise<LoadedSession | RefusedSession> {
  const file = await readTextFile(path);
  return 'problems' in file ? file : parseSession(file.text, path);
}

/** Checks and plays the text of a session file. `path` is only needed to find the circuit beside it. */
export async function parseSession(text: string, path: string): Promise<LoadedSession | RefusedSession> {
  const refuse = (problems: readonly Diagnostic[]): RefusedSession => ({
    problems: sorted(problems).slice(0, MOST_PROBLEMS),
    source: text,
  });
  const yaml = readYaml(text);
  if ('problems' in yaml) return refuse(yaml.problems);
  const { value, ranges } = yaml.document;
  const later = laterFormat(value, ranges);
  if (later) return refuse([later]);
  compiled ??= schemaCheck(SESSION_SCHEMA);
  const cut = linesCutByColon(value, ranges, text);
  const shape = compiled(value, ranges).filter(
    ({ range }) => !cut.some((one) => one.range.start <= range.start && range.end <= one.range.end),
  );
  if (cut.length + shape.length > 0) return refuse([...cut, ...shape]);

  const document = value as unknown as SessionDocument;
  const circuitFile = resolve(dirname(path), document.circuit);
  const loaded = await readCircuit(circuitFile);
  if ('problems' in loaded) {
    return refuse([circuitProblem(document.circuit, loaded.problems[0]!, loaded.source, ranges)]);
  }
  const { circuit, hash } = loaded;
  const opening: Event[] = [
    {
      type: 'opened',
      format: 1,
      program: BY_HAND,
      circuit: { id: circuit.id, hash, file: document.circuit },
    },
  ];
  if (document.concern) opening.push({ type: 'concern', concern: { ...document.concern } });
  const problems: Diagnostic[] = [];
  const recorded = play(document.steps, opening, { circuit, ranges, text, problems });
  const expect = expectationOf(document.expect ?? {}, circuit, ranges, problems);
  if (problems.length > 0) return refuse(problems);
  return {
    title: document.title,
    source: document.source ?? '',
    circuit,
    circuitFile,
    hash: createHash('sha256').update(text.replaceAll('\r\n', '\n')).digest('hex'),
    recorded,
    expect,
  };
}

interface Play {
  readonly circuit: Circuit;
  readonly ranges: Ranges;
  readonly text: string;
  /** Grows. */
  readonly problems: Diagnostic[];
}

function play(
  steps: SessionDocument['steps'],
  opening: readonly Event[],
  { circuit, ranges, text, problems }: Play,
): readonly Recorded[] {
  const recorded: Recorded[] = [];
  const record = (events: readonly Event[]): void => {
    for (const event of events) recorded.push({ number: nextNumber(recorded), at: '', event });
  };
  record(opening);
  steps.forEach((step, index) => {
    const at = pointer('steps', index);
    const refuse = (message: string, mend: string, range: Range = ranges.value(at)): void => {
      // A step that was refused before has no number; what counts on one would only be told off for it.
      if (problems.length > 0 && message.startsWith('There is no event')) return;
      problems.push({
        code: 'bad-value',
        severity: 'error',
        range,
        message: small(message, circuit),
        mend: small(mend, circuit),
      });
    };
    if (typeof step === 'string') {
      const line = parseLine(step, circuit, recorded);
      if (line.kind === 'events') record(line.events);
      else if (line.kind === 'query' && line.query === 'redraw')
        refuse(
          'a drawing is corrected in a running session only',
          'write the session for the corrected circuit file, or add an event of the type redrawn',
        );
      else if (line.kind === 'query')
        refuse('a question records nothing', 'delete the line; what must come out stands under expect');
      else if (line.kind === 'error')
        refuse(line.message, line.mend, inLine(step, line.at, ranges.value(at), text));
      return;
    }
    const read = eventFrom(step);
    if (!read.ok) return refuse(read.message, read.mend, ranges.value(at + read.at));
    const decision = decide(circuit, recorded, [read.event]);
    if (decision.ok) record(decision.events);
    else refuse(decision.message, decision.mend);
  });
  return recorded;
}

/** Messages of the line grammar begin with a capital and may end in a full stop; diagnostics do neither. */
function small(sentence: string, { parts, controls }: Circuit): string {
  const [first] = sentence.split(' ');
  const word = /^[A-Z][a-z]*$/.test(first!) && !parts.has(first!) && !controls.has(first!);
  return `${word ? sentence[0]!.toLowerCase() : sentence[0]!}${sentence.slice(1)}`.replace(/\.$/, '');
}

/** The word at that offset of a step's line; the whole step where quotes or folding moved the text. */
function inLine(line: string, at: number, range: Range, text: string): Range {
  const found = text.slice(range.start, range.end).indexOf(line);
  if (found < 0) return range;
  const start = range.start + found + Math.min(at, Math.max(0, line.length - 1));
  const word = /^[^\s,;]+/.exec(line.slice(at))?.[0].length ?? 1;
  return { start, end: start + word };
}

function laterFormat(value: YamlValue, ranges: Ranges): Diagnostic | undefined {
  const format = typeof value === 'object' && !Array.isArray(value) ? value['session'] : undefined;
  if (typeof format !== 'string' || !/^[1-9]\d*$/.test(format) || format === '1') return undefined;
  return {
    code: 'bad-value',
    severity: 'error',
    range: ranges.value('/session'),
    message: `this session is written in format ${format}; this program knows format 1`,
    mend: 'use a newer program, or write session: 1 if it is the format you know',
  };
}

/** `- skip volts X3.1h: cannot reach` is a name with a value to YAML. */
function linesCutByColon(value: YamlValue, ranges: Ranges, text: string): Diagnostic[] {
  if (typeof value === 'string' || Array.isArray(value)) return [];
  const { steps } = value;
  if (!Array.isArray(steps)) return [];
  return steps.flatMap((step, index): Diagnostic[] => {
    if (typeof step !== 'object' || Array.isArray(step) || Object.keys(step).length !== 1) return [];
    const range = ranges.value(pointer('steps', index));
    if (text[range.start] === '{' || !/\s/.test(Object.keys(step)[0]!.trim())) return [];
    return [
      {
        code: 'wrong-kind',
        severity: 'error',
        range,
        message: 'the colon makes this line a name with a value',
        mend: `put the whole line in quotes: "${text.slice(range.start, range.end)}"`,
      },
    ];
  });
}

function circuitProblem(written: string, first: Diagnostic, source: string, ranges: Ranges): Diagnostic {
  const { line, column } = placeOf(source, first.range.start);
  const where = source === '' ? written : `${written}:${line}:${column}`;
  return {
    code: 'cannot-read',
    severity: 'error',
    range: ranges.value('/circuit'),
    message: `the circuit of this session cannot be used: ${where}: ${first.message}`,
    mend: first.mend,
  };
}
