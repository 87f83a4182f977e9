/** `table CIRCUIT`: the readings to be expected at every point, healthy and with faults, for paper or a spreadsheet. */
import { resolve } from 'node:path';
import { didYouMean } from '../../circuit/nearest.js';
import { createWorkbench, type Workbench } from '../../diagnosis/workbench.js';
import { writeNewFile } from '../../files/new-file.js';
import { columnsFrom, probesOf, sheetOf, type ReadingsTable, type Row } from '../../report/readings-table.js';
import { tableCsv, tableMarkdown, tableText } from '../../report/readings-table-text.js';
import type { CommandResult, Context } from '../context.js';
import { Failure } from '../failure.js';
import { findCircuit } from '../find-circuit.js';
import { STATUS } from '../io.js';
import { faultFrom, setUpFrom, worstOf } from '../set-up-flags.js';

export interface TableFlags {
  /** Controls that stay put; the others are tried in every position. */
  readonly when?: readonly string[];
  readonly at?: readonly string[];
  readonly black?: string;
  /** Fault ids, parts (all their faults), or `all`. */
  readonly fault?: readonly string[];
  readonly severity?: string;
  readonly format?: string;
  readonly out?: string;
  readonly json?: boolean;
}

const FORMATS = { text: tableText, csv: tableCsv, markdown: tableMarkdown };
type Format = keyof typeof FORMATS;

export async function table(context: Context, name: string, flags: TableFlags): CommandResult {
  const { io, output } = context;
  const format = formatOf(flags.format ?? 'text');
  const { circuit } = await findCircuit(context, name);
  const bench = createWorkbench(circuit);
  const from = setUpFrom(circuit, flags.when);
  const fixed = new Set(
    [...circuit.controls.keys()].filter((id) =>
      (flags.when ?? []).some((pair) => pair.trim().toLowerCase().startsWith(`${id.toLowerCase()} `)),
    ),
  );
  const columns = columnsFrom(circuit, from, fixed);
  const probes = probesFor(bench, flags);
  const faults = (flags.fault ?? []).flatMap((typed) => faultsOf(bench, typed, flags.severity));
  const made: ReadingsTable = {
    circuit,
    ...columns,
    sheets: [undefined, ...faults].map((fault) => sheetOf(bench, columns.columns, probes, fault)),
  };
  if (flags.json === true) {
    output.json('table', {
      combinations: { shown: columns.columns.length, of: columns.of, all: columns.all },
      columns: columns.columns.map(({ name: when, setUp }) => ({
        when,
        controls: Object.fromEntries(setUp.controls),
      })),
      sheets: made.sheets,
    });
    return STATUS.ok;
  }
  const text = FORMATS[format](made);
  // Its cells are harmless already, and its line ends are part of the standard.
  if (flags.out === undefined && format === 'csv') io.stdout.write(text);
  else if (flags.out === undefined) output.result(text.trimEnd());
  else {
    const written = await writeNewFile(resolve(io.cwd, flags.out), text);
    if ('problem' in written) throw new Failure(`${flags.out}: ${written.problem}`, written.mend);
    output.say(`Written: ${flags.out}`);
  }
  return STATUS.ok;
}

function probesFor(
  bench: Workbench,
  { at, black = 'bat-' }: TableFlags,
): readonly Pick<Row, 'red' | 'black'>[] {
  const to = pointOf(bench, black);
  if (at === undefined) return probesOf(bench, to);
  const all = probesOf(bench, to);
  return at.flatMap((typed) => {
    const part = bench.circuit.parts.has(typed);
    const own = part ? all.filter(({ red }) => red.split('.')[0] === typed) : [];
    return own.length > 0 ? own : [{ red: pointOf(bench, typed), black: to }];
  });
}

export function pointOf(bench: Workbench, name: string): string {
  const points = [...bench.network.points.keys()];
  const found = points.find((point) => point.toLowerCase() === name.trim().toLowerCase());
  if (found !== undefined) return found;
  throw new Failure(`This circuit has no point "${name}"`, didYouMean(name, points, 'point'));
}

function faultsOf(bench: Workbench, typed: string, severity: string | undefined) {
  const lower = typed.trim().toLowerCase();
  const own =
    lower === 'all' ? bench.faults : bench.faults.filter(({ part }) => part.toLowerCase() === lower);
  if (own.length > 0)
    return own.map((fault) => ({ id: fault.id, label: fault.label, applied: fault.apply(worstOf(fault)) }));
  const applied = faultFrom(bench, typed, severity);
  const fault = bench.faults.find(({ id }) => id.toLowerCase() === lower)!;
  return [{ id: fault.id, label: fault.label, applied }];
}

function formatOf(typed: string): Format {
  const names = Object.keys(FORMATS);
  const found = names.find((known) => known === typed.toLowerCase());
  if (found === undefined)
    throw new Failure(`There is no format "${typed}"`, didYouMean(typed, names, 'format'));
  return found as Format;
}
