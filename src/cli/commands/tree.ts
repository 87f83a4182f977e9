/** `tree CIRCUIT LINE...`: a fault-finding tree for a concern, to be printed. */
import { didYouMean } from '../../circuit/nearest.js';
import { createWorkbench } from '../../diagnosis/workbench.js';
import { faultTree } from '../../planning/tree.js';
import { printTree, TREE_FORMS, type TreeForm } from '../../report/tree-report.js';
import { treeSheet } from '../../report/tree-sheet.js';
import type { Circuit } from '../../circuit/circuit.js';
import { describeEvent } from '../../session/describe-event.js';
import { nextNumber } from '../../session/decide.js';
import type { Recorded } from '../../session/events.js';
import { foldCase } from '../../session/fold.js';
import { parseLine } from '../../session/parse-line.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';

export interface TreeFlags {
  readonly format?: string;
  /** Tests one after the other, at most. */
  readonly depth?: string;
}

const DEEPEST = 30;

export async function tree(
  context: Context,
  name: string,
  lines: readonly string[],
  flags: TreeFlags,
): CommandResult {
  const { output } = context;
  const form = formOf(flags.format ?? 'text');
  const depth = flags.depth === undefined ? undefined : depthOf(flags.depth);
  const { circuit } = await findCircuit(context, name);
  const { recorded, concern } = concernOf(circuit, lines);
  const grown = faultTree(createWorkbench(circuit), recorded, depth === undefined ? {} : { depth });
  if (grown === undefined)
    throw new Failure(
      lines.length === 0 ? 'A tree begins with what fails' : 'Nothing in these lines is out of order',
      `Say what fails, and in which condition: ${exampleFor(circuit)}`,
    );
  const sheet = treeSheet(circuit, concern, grown);
  output.result(printTree(sheet, form, { ascii: output.ascii }).trimEnd());
  return STATUS.ok;
}

/** The lines as events, with each in words. */
function concernOf(
  circuit: Circuit,
  lines: readonly string[],
): { readonly recorded: readonly Recorded[]; readonly concern: readonly string[] } {
  const recorded: Recorded[] = [];
  const concern: string[] = [];
  for (const text of lines) {
    const line = parseLine(text, circuit, recorded);
    if (line.kind === 'error')
      throw new Failure(`${line.message}\n  ${text}\n  ${' '.repeat(line.at)}^`, line.mend);
    if (line.kind === 'query')
      throw new Failure(`"${text}" asks; it does not say what fails`, `For example: ${exampleFor(circuit)}`);
    if (line.kind === 'empty') continue;
    for (const event of line.events) {
      const standing = foldCase(circuit, recorded).now;
      recorded.push({ number: nextNumber(recorded), at: '', event });
      if (event.type === 'found') concern.push(describeEvent(circuit, event, standing));
    }
  }
  return { recorded, concern };
}

function exampleFor(circuit: Circuit): string {
  const load = [...circuit.parts.values()].find(({ type }) => type === 'lamp' || type === 'motor');
  const control = [...circuit.controls.values()][0];
  const when = control === undefined ? '' : ` when ${control.id} ${control.positions[1] ?? ''}`;
  return `knowngood tree ${circuit.id} "fails ${load?.id ?? 'H1'}${when}"`;
}

function formOf(typed: string): TreeForm {
  const form = TREE_FORMS.find((known) => known === typed.toLowerCase());
  if (form === undefined)
    throw new Failure(`There is no format "${typed}"`, didYouMean(typed, TREE_FORMS, 'format'));
  return form;
}

function depthOf(typed: string): number {
  const depth = Number(typed);
  if (!/^\d+$/.test(typed) || depth < 1 || depth > DEEPEST)
    throw new Failure(
      `"${typed}" is not a depth`,
      `Give the most tests one after the other, 1 to ${DEEPEST}: --depth 4`,
    );
  return depth;
}
