/** Exercise files: the instructor's own, and the sealed ones for students. Text → checked exercise, with the workbench it runs on. */
import { createHash } from 'node:crypto';
import { dirname, resolve } from 'node:path';
import type { Circuit } from '../circuit/circuit.js';
import { readCosts } from '../circuit/costs.js';
import { pointer, sorted, type Diagnostic, type Ranges } from '../circuit/diagnostic.js';
import { Mistakes } from '../circuit/mistakes.js';
import { didYouMean } from '../circuit/nearest.js';
import { placeOf } from '../circuit/print-diagnostic.js';
import { schemaCheck, type SchemaCheck } from '../circuit/schema-check.js';
import { createWorkbench, type Workbench } from '../diagnosis/workbench.js';
import { drawExercise, type Difficulty, type Drawn } from '../exercise/draw-exercise.js';
import { TOOLS, type Exercise, type Help, type Tool } from '../exercise/exercise.js';
import { readCircuit } from './circuit-file.js';
import {
  checkComplaint,
  complaintLines,
  hiddenOf,
  hintsOf,
  markingOf,
  type ExerciseDocument,
} from './exercise-rules.js';
import { EXERCISE_SCHEMA } from './exercise-schema.js';
import { unseal, type Seal } from './seal.js';
import { readTextFile } from './text-file.js';
import { readYaml, type YamlValue } from './yaml-source.js';

export type Values = { readonly [name: string]: YamlValue };

export interface LoadedExercise {
  readonly exercise: Exercise;
  /** On the circuit with the exercise's own places and costs. */
  readonly bench: Workbench;
  readonly circuitFile: string;
  readonly circuitHash: string;
  /** Everything the file says, the seal opened. */
  readonly document: Values;
  /** The seal as it stands in the file, with the text it covers. */
  readonly sealed: { readonly seal: Seal; readonly open: string } | undefined;
}

export interface RefusedExercise {
  /** At least one, sorted by place. */
  readonly problems: readonly Diagnostic[];
  readonly source: string;
}

let compiled: SchemaCheck | undefined;

/** Entries that a seal hides. */
export const HIDDEN = ['faults', 'draw', 'seed', 'hints', 'goal'] as const;

/** Never throws: a file that cannot be read is a problem like any other. */
export async function readExerciseFile(path: string): Promise<LoadedExercise | RefusedExercise> {
  const file = await readTextFile(path);
  return 'problems' in file ? file : parseExercise(file.text, path);
}

/** @param path only needed to find the circuit beside it */
export async function parseExercise(text: string, path: string): Promise<LoadedExercise | RefusedExercise> {
  const refuse = (problems: readonly Diagnostic[]): RefusedExercise => ({
    problems: sorted(problems),
    source: text,
  });
  const one = (
    at: Diagnostic['range'],
    code: Diagnostic['code'],
    message: string,
    mend: string,
  ): RefusedExercise => refuse([{ code, severity: 'error', range: at, message, mend }]);
  const yaml = readYaml(text);
  if ('problems' in yaml) return refuse(yaml.problems);
  const { value, ranges } = yaml.document;
  compiled ??= schemaCheck(EXERCISE_SCHEMA);
  const shape = compiled(value, ranges);
  if (shape.length > 0) return refuse(shape);
  const written = value as Values;

  const circuitFile = resolve(dirname(path), written['circuit'] as string);
  const loaded = await readCircuit(circuitFile);
  if ('problems' in loaded) {
    const first = loaded.problems[0]!;
    const { line, column } = placeOf(loaded.source, first.range.start);
    const where =
      loaded.source === '' ? String(written['circuit']) : `${String(written['circuit'])}:${line}:${column}`;
    return one(
      ranges.value('/circuit'),
      'cannot-read',
      `the circuit of this exercise cannot be used: ${where}: ${first.message}`,
      first.mend,
    );
  }
  const { sealed, ...open } = written;
  const covered = coveredText(open, loaded.hash);
  let document = open as Values;
  if (sealed !== undefined) {
    const secret = unseal(covered, sealed as unknown as Seal);
    if (secret === undefined)
      return one(
        ranges.key('/sealed'),
        'contradiction',
        'this exercise is not as it was sealed: the file or its circuit has been changed',
        'ask the instructor for the file and its circuit once more',
      );
    document = { ...open, ...(JSON.parse(secret) as Values) };
  }
  const mistakes = new Mistakes();
  const made = await build(document as unknown as ExerciseDocument, loaded.circuit, ranges, mistakes);
  if (made === undefined || mistakes.errors > 0) return refuse(mistakes.list);
  const hash = exerciseHash(document, loaded.hash);
  return {
    exercise: { ...made.drawn, hash },
    bench: made.bench,
    circuitFile,
    circuitHash: loaded.hash,
    document,
    sealed: sealed === undefined ? undefined : { seal: sealed as unknown as Seal, open: covered },
  };
}

/** Names what an exercise says, sealed or not, wherever its files stand. */
export function exerciseHash(document: Values, circuitHash: string): string {
  return createHash('sha256').update(coveredText(document, circuitHash)).digest('hex');
}

/** The exercise and its circuit as one text; where the circuit file stands may change. */
export function coveredText(document: Values, circuitHash: string): string {
  const rest = Object.entries(document).filter(([name]) => name !== 'circuit');
  return JSON.stringify([canonical(Object.fromEntries(rest)), circuitHash]);
}

function canonical(value: YamlValue): YamlValue {
  if (typeof value === 'string') return value.replaceAll('\r\n', '\n');
  if (Array.isArray(value)) return value.map(canonical);
  return Object.fromEntries(
    Object.keys(value)
      .sort()
      .map((name) => [name, canonical(value[name]!)]),
  );
}

async function build(
  document: ExerciseDocument,
  drawing: Circuit,
  ranges: Ranges,
  mistakes: Mistakes,
): Promise<{ drawn: Drawn; bench: Workbench } | undefined> {
  const bench = createWorkbench(withCosts(document, drawing, ranges, mistakes));
  const { circuit } = bench;
  const faults = hiddenOf(bench, document, ranges, mistakes);
  const complaint = complaintLines(circuit, document, ranges, mistakes);
  const hints = hintsOf(document, ranges, mistakes);
  const marking = markingOf(document, ranges, mistakes);
  const { budget = {} } = document;
  const own = {
    id: document.id,
    title: String(document.title),
    goal: (document.goal ?? '').trim(),
    tools: new Set((document.tools as readonly Tool[] | undefined) ?? TOOLS),
    budget: {
      minutes:
        budget.minutes === undefined
          ? undefined
          : mistakes.amount(budget.minutes, 'time', ranges.value('/budget/minutes'), 1),
      money:
        budget.money === undefined
          ? undefined
          : mistakes.amount(budget.money, 'money', ranges.value('/budget/money'), 0),
    },
    help: (document.help ?? 'none') as Help,
    hints,
    marking,
  };
  if ((document.draw === undefined) === (document.faults === undefined))
    mistakes.error(
      'contradiction',
      ranges.key(document.draw === undefined ? '' : '/draw'),
      document.draw === undefined
        ? 'nothing is hidden: there are no faults'
        : 'faults are both given and drawn',
      'give faults: with their complaint, or draw: {seed: 7, difficulty: 2}',
    );
  if (document.draw !== undefined) {
    for (const key of ['complaint', 'seed'] as const)
      if (document[key] !== undefined)
        mistakes.error(
          'contradiction',
          ranges.key(`/${key}`),
          `a drawn fault brings its own ${key}`,
          'delete this entry',
        );
    if (mistakes.errors > 0) return undefined;
    const difficulty = Number(document.draw.difficulty) as Difficulty;
    const drawn = await drawExercise(bench, Number(document.draw.seed), difficulty);
    if (drawn === undefined) {
      mistakes.error(
        'contradiction',
        ranges.key('/draw'),
        'nothing that was drawn for this circuit shows in a load',
        'try another seed, or a circuit with loads',
      );
      return undefined;
    }
    const concern = (document.concern ?? drawn.concern).trim();
    return { bench, drawn: { ...drawn, ...own, concern } };
  }
  for (const key of ['complaint', 'concern', 'seed'] as const)
    if (document[key] === undefined)
      mistakes.error(
        'missing-key',
        ranges.key(''),
        `the file has no “${key}”`,
        `add ${key}: followed by ${EXERCISE_SCHEMA.properties[key].description}`,
      );
  if (mistakes.errors > 0) return undefined;
  const seed = Number(document.seed);
  await checkComplaint(bench, { faults, seed }, complaint, ranges, mistakes);
  return { bench, drawn: { ...own, concern: document.concern!.trim(), complaint, faults, seed } };
}

function withCosts(
  document: ExerciseDocument,
  circuit: Circuit,
  ranges: Ranges,
  mistakes: Mistakes,
): Circuit {
  const costs = readCosts(document.costs ?? {}, '/costs', ranges, mistakes);
  const places = new Map(circuit.places);
  const known = new Map([...places.keys()].map((name) => [name.toLowerCase(), name]));
  for (const [written, minutes] of Object.entries(document.places ?? {})) {
    const name = known.get(written.toLowerCase());
    const at = pointer('places', written);
    if (name === undefined) {
      mistakes.error(
        'unknown-name',
        ranges.key(at),
        `this circuit has no place “${written}”`,
        didYouMean(written, known.values(), 'place'),
      );
      continue;
    }
    places.set(name, {
      ...places.get(name)!,
      minutes: mistakes.amount(minutes, 'time', ranges.value(at), 1),
    });
  }
  return { ...circuit, places, costs: { ...circuit.costs, ...costs } };
}
