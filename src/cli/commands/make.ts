/** `make [FILE]`: a circuit of one's own by questions and answers, written as a commented file that passes `check`. */
import { constants } from 'node:fs';
import { access } from 'node:fs/promises';
import { basename, dirname, relative, resolve } from 'node:path';
import { printDiagnostics } from '../../circuit/print-diagnostic.js';
import { ownCircuitText } from '../../circuit/own/file-text.js';
import { answerAll, QUESTIONS } from '../../circuit/own/questions.js';
import type { Wish } from '../../circuit/own/wish.js';
import { didYouMean } from '../../circuit/nearest.js';
import { writeNewFile } from '../../files/new-file.js';
import { readTextFile } from '../../files/text-file.js';
import { colourLevel } from '../colour.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { STATUS } from '../io.js';
import { Interrupted, type Asker } from '../talk/asker.js';
import { askWish } from '../talk/ask-wish.js';
import { circuitFindings } from './check.js';
import type { MakeAsker } from '../talk/asker-for.js';

export interface MakeFlags extends Record<string, unknown> {
  /** File with lines `flag: answer`. */
  readonly answers?: string;
  /** Enter to every question that has no answer yet. */
  readonly yes?: boolean;
  /** Write over a file that is there. */
  readonly overwrite?: boolean;
  readonly color?: boolean;
}

const USUAL_NAME = 'my-circuit.yaml';

/** @param wanted name of the file; asked for where it is left out */
export async function make(
  context: Context,
  wanted: string | undefined,
  flags: MakeFlags,
  makeAsker?: MakeAsker,
): CommandResult {
  const { io, output } = context;
  const given = await answersFrom(context, flags);
  const asker = await askerFor(context, flags, makeAsker);
  try {
    const name = wanted ?? (await nameFrom(asker));
    const path = resolve(io.cwd, /\.ya?ml$/i.test(name) ? name : `${name}.yaml`);
    await mustTakeFiles(path, name);
    const replace = flags.overwrite === true || (await mayReplace(path, asker));
    const wish = asker === undefined ? answered(given) : await askWish(asker, output, given);
    const text = ownCircuitText(wish, shortName(path));
    const found = circuitFindings(text);
    if (found.some(({ severity }) => severity === 'error'))
      throw new Error(printDiagnostics(text, basename(path), found).join('\n'));
    const written = await writeNewFile(path, text, { replace });
    if ('problem' in written)
      throw new Failure(`${name}: ${written.problem}`, `${written.mend} Or --overwrite.`);
    if (found.length > 0) output.say(printDiagnostics(text, basename(path), found).join('\n'));
    output.result(path);
    const shown = relative(io.cwd, path);
    const file = /\s/.test(shown) ? `"${shown}"` : shown;
    output.say(
      `It passes check. Read it, put in what you know better, then:\n  knowngood draw ${file}\n  knowngood start ${file}`,
    );
    return STATUS.ok;
  } catch (error) {
    if (!(error instanceof Interrupted)) throw error;
    output.say('\nInterrupted. Nothing was written.', 'strong');
    return STATUS.interrupted;
  }
}

async function nameFrom(asker: Asker | undefined): Promise<string> {
  if (asker === undefined)
    throw new Failure(
      'The new file has no name',
      'For example: knowngood make mine.yaml --loads "2 stop lamps 21 W" --switch "brake pedal".',
    );
  const typed = await asker.ask(`Name of the new file? [${USUAL_NAME}]`);
  return typed === undefined || typed === '' ? USUAL_NAME : typed;
}

function answered(given: ReadonlyMap<string, string>): Wish {
  const read = answerAll(given);
  if ('wrong' in read)
    throw new Failure(`${read.flag}: ${read.wrong}`, `${sentence(read.mend)} Nothing was written.`);
  return read.value;
}

/** From the file of answers, or a pipe; flags go before both. */
async function answersFrom(context: Context, flags: MakeFlags): Promise<ReadonlyMap<string, string>> {
  const { io } = context;
  const given = new Map<string, string>();
  if (flags.answers !== undefined) {
    const file = await readTextFile(resolve(io.cwd, flags.answers));
    if ('problems' in file)
      throw new Failure(`${flags.answers}: ${file.problems[0]!.message}`, file.problems[0]!.mend);
    for (const [flag, text] of answerLines(file.text, flags.answers)) given.set(flag, text);
  }
  for (const { flag } of QUESTIONS) {
    const typed = flags[flag];
    if (typeof typed === 'string') given.set(flag, typed);
  }
  return given;
}

/** Lines `loads: 2 lamps 21 W`; blank ones and those with # are passed over. */
function answerLines(text: string, name: string): readonly (readonly [string, string])[] {
  const flags = QUESTIONS.map(({ flag }) => flag);
  return text.split(/\r?\n/).flatMap((line, index): [string, string][] => {
    if (line.trim() === '' || line.trim().startsWith('#')) return [];
    const [, flag = '', answer = ''] = /^\s*([\w-]+)\s*[:=]\s*(.*?)\s*$/.exec(line) ?? [];
    if (flags.includes(flag.toLowerCase())) return answer === '' ? [] : [[flag.toLowerCase(), answer]];
    throw new Failure(
      `${name}:${index + 1}: ${flag === '' ? 'this line is no answer' : `there is no question "${flag}"`}`,
      flag === ''
        ? `Write each as NAME: ANSWER. The names: ${flags.join(', ')}.`
        : didYouMean(flag, flags, 'question'),
    );
  });
}

/** Nobody is asked where answers come from a file, with --yes, or without a terminal. */
async function askerFor(
  context: Context,
  flags: MakeFlags,
  makeAsker?: MakeAsker,
): Promise<Asker | undefined> {
  if (flags.answers !== undefined || flags.yes === true) return undefined;
  if (makeAsker !== undefined) return makeAsker(context);
  if (!context.io.isTTY.stdin) {
    if (typeof flags['loads'] === 'string') return undefined;
    throw new Failure(
      'There is no terminal to ask at, and --loads does not say what is to be drawn',
      'For example: knowngood make mine.yaml --loads "2 stop lamps 21 W" --switch "brake pedal"; or --answers FILE.',
    );
  }
  const { terminalAsker } = await import('../talk/terminal-asker.js');
  return terminalAsker(context.io, colourLevel(context.io, 'stderr', flags.color) > 0);
}

/** Said before the questions: a dozen answers are not to be lost by a folder that is not there. */
async function mustTakeFiles(path: string, name: string): Promise<void> {
  await access(dirname(path), constants.W_OK).catch(() => {
    throw new Failure(
      `${name}: there is no such folder, or nothing may be written in it`,
      'Make the folder first, or give another name.',
    );
  });
}

/** A file that is there is written over only with a typed yes. */
export async function mayReplace(path: string, asker: Asker | undefined): Promise<boolean> {
  if (!(await isThere(path))) return false;
  if (asker !== undefined) {
    const answer = await asker.ask(
      `${basename(path)} is there already. Type yes to write over it, anything else to stop:`,
    );
    if (/^yes$/i.test(answer ?? '')) return true;
  }
  throw new Failure(
    `${basename(path)} is there already and was left as it is`,
    'Give another name, or --overwrite.',
  );
}

export function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/** The circuit is called as its file. */
export function shortName(path: string): string {
  const plain = basename(path)
    .replace(/\.ya?ml$/i, '')
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9_-]+/g, '-')
    .replace(/^[-_]+|-+$/g, '')
    .slice(0, 40);
  return plain === '' ? 'my-circuit' : plain;
}

export function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? '' : '.'}`;
}
