/** `mark FOLDER --exercise FILE`: students' journals in, mark sheets out; what is tampered, foreign or damaged is named. */
import { readdir, stat } from 'node:fs/promises';
import { basename, join, resolve } from 'node:path';
import { didYouMean } from '../../circuit/nearest.js';
import { printDiagnostics } from '../../circuit/print-diagnostic.js';
import { markOf } from '../../exercise/mark.js';
import { planned, type Road } from '../../exercise/planner-road.js';
import { Run } from '../../exercise/run.js';
import { describeRepair, JournalError, readJournal } from '../../files/journal.js';
import { beginsLikeJournal } from '../../files/journal-format.js';
import { readOverrides, type GivenOverride } from '../../files/override-file.js';
import { JOURNAL_ENDING } from '../../files/places.js';
import { MARK_FORMS, printMarks, type MarkForm, type Row } from '../../report/mark-sheet.js';
import { toAscii } from '../../report/layout.js';
import { describeEvent } from '../../session/describe-event.js';
import { standingSetUp } from '../../session/decide.js';
import type { Recorded } from '../../session/events.js';
import { begunIn } from '../attempt.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { proveExercise, type FoundExercise } from '../find-exercise.js';
import { STATUS } from '../io.js';
import { headOf } from '../replay/collect.js';

export interface MarkFlags {
  readonly exercise?: readonly string[];
  readonly key?: string;
  readonly format?: string;
  readonly overrides?: string;
  /** Each step beside the best one. */
  readonly roads?: boolean;
}

interface Marked {
  readonly found: FoundExercise;
  par: Road | undefined;
}

export async function mark(context: Context, names: readonly string[], flags: MarkFlags): CommandResult {
  const { output, io } = context;
  const form = formOf(flags.format ?? 'text');
  if (flags.exercise === undefined || flags.exercise.length === 0)
    throw new Failure('It is not said which exercise is marked', 'Add --exercise FILE; several may follow.');
  const exercises = new Map<string, Marked>();
  for (const name of flags.exercise) {
    const found = await proveExercise(context, name, flags.key);
    exercises.set(found.exercise.hash, { found, par: undefined });
  }
  const given = flags.overrides === undefined ? [] : await overridesOf(context, flags.overrides);
  const { files, others } = await journalsIn(names.map((name) => resolve(io.cwd, name)));
  if (files.length === 0)
    throw new Failure(
      `there are no journals in ${names.join(', ')}${others.length > 0 ? `, but ${others.join(', ')}` : ''}`,
      'Check the folder.',
    );
  if (others.length > 0) output.say(`Left out, no journals: ${others.join(', ')}`, 'warning');
  const rows: Row[] = [];
  for (const file of files) {
    if (io.isTTY.stderr) output.say(`marking ${basename(file)}`, 'faint');
    rows.push(await rowOf(file, exercises, given));
  }
  for (const { journal } of given)
    if (!rows.some((row) => row.file === journal && row.state === 'marked'))
      output.say(`The override for ${journal} changes nothing: no such journal was marked.`, 'warning');
  const text = printMarks(rows, form, flags.roads === true);
  io.stdout.write(output.ascii && form === 'text' ? toAscii(text) : text);
  return rows.every(({ state }) => state === 'marked') ? STATUS.ok : STATUS.negative;
}

async function rowOf(
  path: string,
  exercises: ReadonlyMap<string, Marked>,
  given: readonly GivenOverride[],
): Promise<Row> {
  const file = basename(path);
  let read;
  try {
    read = await readJournal(path);
  } catch (error) {
    if (!(error instanceof JournalError)) throw error;
    return { file, state: 'damaged', why: error.message.replace(path, file), student: '' };
  }
  const { recorded, repairs } = read;
  const begun = begunIn(recorded);
  const student = begun?.student ?? '';
  const foreign = (why: string): Row => ({ file, state: 'foreign', why, student });
  if (begun === undefined) return foreign('this session is no attempt at an exercise');
  const marked = exercises.get(begun.hash);
  if (marked === undefined)
    return foreign(
      `it is an attempt at ${begun.id}, or at another version of it (${begun.hash.slice(0, 16)})`,
    );
  const { found } = marked;
  const run = await Run.begin(found.bench, found.exercise);
  const wrong = notBegunSo(run, recorded);
  if (wrong !== undefined) return { file, state: 'tampered', why: wrong, student };
  const [strange] = await run.again(recorded);
  if (strange !== undefined) {
    const { circuit } = found.bench;
    const standing = standingSetUp(circuit, recorded, strange.number);
    const why = `event ${strange.number} says "${describeEvent(circuit, strange.recorded, standing)}"; this vehicle gives "${describeEvent(circuit, strange.simulated, standing)}"`;
    return { file, state: 'tampered', why, student };
  }
  marked.par ??= await planned(await Run.begin(found.bench, found.exercise));
  const made = markOf(run, marked.par);
  const overrides = given.filter(({ journal }) => journal === file);
  const sum = overrides.reduce((all, { marks }) => all + marks, made.total);
  return {
    file,
    state: 'marked',
    mark: made,
    overrides,
    total: Math.round(10 * Math.min(100, Math.max(0, sum))) / 10,
    notes: repairs.map((repair) => describeRepair(repair)),
  };
}

/** What stands at the beginning of an attempt is the program's own; undefined when it does here. */
function notBegunSo(run: Run, recorded: readonly Recorded[]): string | undefined {
  const opening = run.opening;
  const begins = recorded.slice(2, 2 + opening.length).map(({ event }) => event);
  if (recorded[0]?.event.type !== 'opened' || recorded[1]?.event.type !== 'exercise')
    return 'it does not begin as the program begins an attempt';
  if (JSON.stringify(begins) !== JSON.stringify(opening)) return 'its complaint is not that of the exercise';
  const late = recorded.find(
    ({ event }, index) =>
      index > 1 &&
      (['opened', 'exercise', 'redrawn', 'symptom'].includes(event.type) ||
        ('before' in event && event.before !== undefined)),
  );
  return late === undefined ? undefined : `event ${late.number} cannot come about in an attempt`;
}

/** Journals are known by their ending or, where students named them otherwise, by how they begin. */
async function journalsIn(
  paths: readonly string[],
): Promise<{ files: readonly string[]; others: readonly string[] }> {
  const files: string[] = [];
  const others: string[] = [];
  for (const path of paths) {
    const state = await stat(path).catch(() => undefined);
    if (state === undefined) throw new Failure(`there is no ${path}`, 'Check the name of the folder.');
    if (!state.isDirectory()) files.push(path);
    else
      for (const entry of await readdir(path, { withFileTypes: true })) {
        const file = join(path, entry.name);
        const named = entry.isFile() && entry.name.endsWith(JOURNAL_ENDING);
        if (!named && entry.name.startsWith('.')) continue;
        if (named || beginsLikeJournal(await headOf(file))) files.push(file);
        else others.push(entry.isDirectory() ? `${entry.name}/` : entry.name);
      }
  }
  // By name, whatever order the disk gives; not by locale, so that it is the same everywhere.
  return {
    files: files.sort((a, b) => byCode(basename(a), basename(b)) || byCode(a, b)),
    others: others.sort(byCode),
  };
}

function byCode(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

async function overridesOf({ io, output }: Context, name: string): Promise<readonly GivenOverride[]> {
  const read = await readOverrides(resolve(io.cwd, name));
  if ('overrides' in read) return read.overrides;
  output.say(printDiagnostics(read.source, name, read.problems).join('\n'));
  throw new Failure(`${name} cannot be used`, 'Mend it, then try again.');
}

function formOf(typed: string): MarkForm {
  const form = MARK_FORMS.find((known) => known === typed.toLowerCase());
  if (form === undefined)
    throw new Failure(`There is no format "${typed}"`, didYouMean(typed, MARK_FORMS, 'format'));
  return form;
}
