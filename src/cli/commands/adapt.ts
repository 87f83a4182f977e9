/** `adapt CIRCUIT`: a circuit of the shelf changed to fit: other values, one more lamp or connector, other ids. Comments stay. */
import { resolve } from 'node:path';
import { printDiagnostics } from '../../circuit/print-diagnostic.js';
import { applyChange, asOwnFile } from '../../files/adapt/apply-change.js';
import { CHANGE_HELP, readChange } from '../../files/adapt/change.js';
import { parseCircuit, readCircuit, type LoadedCircuit } from '../../files/circuit-file.js';
import { writeNewFile } from '../../files/new-file.js';
import { drawText } from '../../report/drawing/draw-text.js';
import { colourLevel } from '../colour.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';
import type { Output } from '../output.js';
import { planFor, printDrawing } from '../show/drawing.js';
import { paragraph } from '../show/page.js';
import { Interrupted, type Asker } from '../talk/asker.js';
import { circuitFindings } from './check.js';
import { isThere, mayReplace, sentence, shortName } from './make.js';
import type { MakeAsker } from '../talk/asker-for.js';

export interface AdaptFlags {
  readonly out?: string;
  readonly overwrite?: boolean;
  readonly addConnector?: readonly string[];
  readonly addLamp?: readonly string[];
  readonly set?: readonly string[];
  readonly rename?: readonly string[];
  readonly color?: boolean;
}

interface Work {
  readonly loaded: LoadedCircuit;
  readonly done: readonly string[];
}

/** @param lines changes, each as it would be typed */
export async function adapt(
  context: Context,
  name: string,
  lines: readonly string[],
  flags: AdaptFlags,
  makeAsker?: MakeAsker,
): CommandResult {
  const { io, output } = context;
  const { file } = await findCircuit(context, name);
  const read = await readCircuit(file);
  if ('problems' in read) throw new Failure(`${name} cannot be used`, 'knowngood check FILE says why.');
  const given = [...lines, ...linesOf(flags)];
  let asker: Asker | undefined;
  try {
    let work: Work = { loaded: read, done: [] };
    for (const line of given) work = changed(work, line);
    if (given.length === 0) {
      asker = await askerFor(context, flags, makeAsker);
      const talked = await talkOver(asker, context, work);
      if (talked === undefined) {
        output.say('Nothing was changed, and nothing was written.');
        return STATUS.ok;
      }
      work = talked;
    }
    const out =
      flags.out ?? (asker === undefined ? undefined : await fileName(asker, context, read.circuit.id));
    const id = out === undefined ? `my-${read.circuit.id}`.slice(0, 40) : shortName(out);
    const text = asOwnFile(work.loaded.source, id, read.circuit.id, work.done);
    const found = circuitFindings(text);
    if (found.some(({ severity }) => severity === 'error'))
      throw new Error(printDiagnostics(text, id, found).join('\n'));
    if (out === undefined) {
      output.result(text.trimEnd());
      return STATUS.ok;
    }
    const path = pathOf(io.cwd, out);
    // A name that was asked for was agreed upon there.
    const replace =
      flags.overwrite === true ||
      (flags.out === undefined ? await isThere(path) : await mayReplace(path, asker));
    const saved = await writeNewFile(path, text, { replace });
    if ('problem' in saved) throw new Failure(`${out}: ${saved.problem}`, saved.mend);
    for (const words of work.done) output.say(sentence(words));
    if (found.length > 0)
      output.say(`It passes check; ${found.length} pieces of advice: knowngood check ${out}`);
    output.result(path);
    return STATUS.ok;
  } catch (error) {
    if (!(error instanceof Interrupted)) throw error;
    output.say('\nInterrupted. Nothing was written.', 'strong');
    return STATUS.interrupted;
  }
}

/** Flags as lines: connectors, lamps, values, then ids, because a later line may speak of what an earlier one put in. */
function linesOf({ addConnector, addLamp, set = [], rename = [] }: AdaptFlags): readonly string[] {
  return [
    ...(addConnector === undefined ? [] : [`connector ${addConnector.join(' ')}`]),
    ...(addLamp === undefined ? [] : [`lamp ${addLamp.join(' ')}`]),
    ...set.map((one) => `set ${one}`),
    ...rename.map((one) => `rename ${one}`),
  ];
}

function changed({ loaded, done }: Work, line: string): Work {
  const read = readChange(line, loaded.circuit);
  const applied = 'wrong' in read ? read : applyChange(loaded, read.change);
  if ('wrong' in applied) throw new Failure(`${line}: ${applied.wrong}`, sentence(applied.mend));
  const next = parseCircuit(applied.text);
  if ('problems' in next) throw new Error('a change that was checked is in order');
  return { loaded: next, done: [...done, applied.words] };
}

const HELP = [
  ...CHANGE_HELP,
  ['draw, draw H1', 'look at it'],
  ['undo', 'the last change does not count'],
  ['done', 'write the new file'],
] as const;

function sayHelp(output: Output): void {
  for (const [usage, meaning] of HELP)
    output.say(paragraph(meaning, `  ${usage.padEnd(29)} `, ' '.repeat(32)));
}

/** Line after line until `done`; undefined when nothing is to be kept. */
async function talkOver(asker: Asker, { output }: Context, start: Work): Promise<Work | undefined> {
  output.say(start.loaded.circuit.title, 'strong');
  sayHelp(output);
  const states: Work[] = [start];
  for (;;) {
    const line = await asker.ask('Change? (done = write it)');
    if (line === undefined) throw new Interrupted('no more lines');
    const now = states.at(-1)!;
    const [verb = '', ...names] = line.split(/\s+/);
    try {
      if (line === '' || /^(help|\?)$/i.test(line)) sayHelp(output);
      else if (/^(done|end|write)$/i.test(line)) return states.length > 1 ? now : undefined;
      else if (/^(quit|exit|cancel)$/i.test(line)) return undefined;
      else if (/^undo$/i.test(line))
        output.say(
          states.length > 1 ? `Taken back: ${states.pop()!.done.at(-1)}` : 'There is nothing to take back.',
        );
      else if (/^draw$/i.test(verb))
        printDrawing(output, drawText(planFor(now.loaded.circuit, names), { ascii: output.ascii }));
      else {
        states.push(changed(now, line));
        output.say(sentence(states.at(-1)!.done.at(-1)!), 'good');
      }
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      output.complain(error.message, error.mend);
    }
  }
}

/** Asks until the name is free, or may be written over: the changes are not to be lost by a name. */
async function fileName(asker: Asker, { io, output }: Context, id: string): Promise<string> {
  const usual = `my-${id}.yaml`;
  for (;;) {
    const typed = await asker.ask(`Name of the new file? [${usual}]`);
    if (typed === undefined) throw new Interrupted('no file name');
    const name = typed === '' ? usual : typed;
    try {
      await mayReplace(pathOf(io.cwd, name), asker);
      return name;
    } catch (error) {
      if (!(error instanceof Failure)) throw error;
      output.complain(error.message, 'Give another name.');
    }
  }
}

function pathOf(folder: string, name: string): string {
  return resolve(folder, /\.ya?ml$/i.test(name) ? name : `${name}.yaml`);
}

async function askerFor(context: Context, flags: AdaptFlags, makeAsker?: MakeAsker): Promise<Asker> {
  if (makeAsker !== undefined) return makeAsker(context);
  if (!context.io.isTTY.stdin)
    throw new Failure(
      'There is no terminal to ask at, and no change is named',
      'For example: knowngood adapt stop-tail "connector X9 in W8" --out mine.yaml.',
    );
  const { terminalAsker } = await import('../talk/terminal-asker.js');
  return terminalAsker(context.io, colourLevel(context.io, 'stderr', flags.color) > 0);
}
