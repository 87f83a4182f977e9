/** `draw CIRCUIT`: the circuit as a drawing in text, or as SVG for print; with a session, what is suspected and cleared in it. */
import { resolve } from 'node:path';
import { loadsOf, type Circuit } from '../../circuit/circuit.js';
import { didYouMean } from '../../circuit/nearest.js';
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import { createWorkbench } from '../../diagnosis/workbench.js';
import { writeNewFile } from '../../files/new-file.js';
import { drawText } from '../../report/drawing/draw-text.js';
import { marksOf, NO_MARKS } from '../../report/drawing/marks.js';
import { standingOf } from '../../report/drawing/standing.js';
import type { Case } from '../../session/case.js';
import type { SetUp } from '../../session/setup.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';
import { lookAtSession, type SessionFlags } from '../open-session.js';
import { setUpFrom } from '../set-up-flags.js';
import { planFor, printDrawing } from '../show/drawing.js';

export interface DrawFlags extends SessionFlags {
  readonly when?: readonly string[];
  readonly volts?: boolean;
  readonly format?: string;
  readonly out?: string;
}

/** Letters below this are hard to read on paper, mm. */
const SMALLEST = 1.4;

interface Subject {
  readonly circuit: Circuit;
  readonly names: readonly string[];
  readonly setUp: SetUp;
  readonly diagnosis?: Diagnosis;
  readonly timeline?: Case['timeline'];
}

/** @param names the circuit, unless a session names it; then parts and wires to which the drawing keeps */
export async function draw(context: Context, names: readonly string[], flags: DrawFlags): CommandResult {
  const { output } = context;
  const format = (flags.format ?? 'text').toLowerCase();
  if (format !== 'text' && format !== 'svg')
    throw new Failure(`There is no format "${flags.format}"`, didYouMean(format, ['text', 'svg'], 'format'));
  const { circuit, names: parts, setUp, diagnosis, timeline } = await subjectOf(context, names, flags);
  const plan = planFor(circuit, parts);
  const marks = diagnosis === undefined ? NO_MARKS : marksOf(diagnosis);
  const standing = standingOf(createWorkbench(circuit), setUp, {
    volts: flags.volts === true,
    ...(timeline === undefined ? {} : { timeline }),
  });
  if (format === 'svg') {
    const { drawSvg } = await import('../../report/drawing/draw-svg.js');
    const { svg, letters } = await drawSvg(plan, { marks, standing });
    if (flags.out === undefined) output.result(svg.trimEnd());
    else await save(context, flags.out, svg);
    if (letters < SMALLEST)
      output.say(
        `On A4 its letters are ${letters.toFixed(1)} mm high: print it larger, or draw a part of it, like: draw ${circuit.id} ${exampleLoad(circuit)}`,
        'warning',
      );
    return STATUS.ok;
  }
  const lines = drawText(plan, { marks, standing, ascii: output.ascii });
  if (flags.out !== undefined)
    await save(context, flags.out, `${lines.map(({ text }) => text).join('\n')}\n`);
  else printDrawing(output, lines);
  return STATUS.ok;
}

async function subjectOf(context: Context, names: readonly string[], flags: DrawFlags): Promise<Subject> {
  if (flags.session === undefined) {
    const [name, ...parts] = names;
    if (name === undefined)
      throw new Failure(
        'Which circuit?',
        'Name its file, or a session: knowngood draw stop-tail, or draw --session FILE.',
      );
    const { circuit } = await findCircuit(context, name);
    return { circuit, names: parts, setUp: setUpFrom(circuit, flags.when) };
  }
  const { session } = await lookAtSession(context, flags);
  const { circuit } = session;
  // Somebody may name the circuit beside its session.
  const parts = names[0] !== undefined && isFileOf(circuit, names[0]) ? names.slice(1) : names;
  const setUp = flags.when === undefined ? session.case.now : setUpFrom(circuit, flags.when);
  return { circuit, names: parts, setUp, diagnosis: session.diagnosis, timeline: session.case.timeline };
}

function exampleLoad({ parts }: Circuit): string {
  return [...parts.values()].find((part) => loadsOf(part).length > 0)?.id ?? '';
}

function isFileOf({ id }: Circuit, name: string): boolean {
  return /\.ya?ml$/i.test(name) || name === id;
}

async function save({ io, output }: Context, name: string, text: string): Promise<void> {
  const written = await writeNewFile(resolve(io.cwd, name), text);
  if ('problem' in written) throw new Failure(`${name}: ${written.problem}`, written.mend);
  output.say(`Written: ${name}`);
}
