/** What a voltmeter would read at every point and across every load, in every position of the controls worth a column. */
import type { Circuit } from '../circuit/circuit.js';
import { nominalVolts } from '../diagnosis/readings.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { AppliedFault } from '../network/solver-types.js';
import { setUpsFrom } from '../planning/set-ups.js';
import type { SetUp } from '../session/setup.js';
import { linksOf } from '../circuit/links.js';

export interface Column {
  /** "pedal down, lights on"; "all at rest". */
  readonly name: string;
  readonly setUp: SetUp;
}

export interface Columns {
  readonly columns: readonly Column[];
  /** True: every combination of positions. False: at rest, and one change at a time. */
  readonly all: boolean;
  /** Combinations there are. */
  readonly of: number;
}

export interface Row {
  /** Red probe; for a load its feed terminal. */
  readonly red: string;
  readonly black: string;
  /** Per column: one figure, or one for each way the circuit can stand. Volts. */
  readonly volts: readonly (readonly number[])[];
}

/** One circuit with nothing, or one thing, wrong in it. */
export interface Sheet {
  /** Id of the fault; undefined = healthy. */
  readonly fault: string | undefined;
  /** "open fuse element in F4". */
  readonly label: string;
  readonly rows: readonly Row[];
}

export interface ReadingsTable extends Columns {
  readonly circuit: Circuit;
  readonly sheets: readonly Sheet[];
}

/** More combinations than this are not shown side by side. */
const MOST_COLUMNS = 12;

/**
 * Every combination of the controls that are free to move, where they are few; else the set-up given and each single change.
 * @param fixed controls that stay where they are
 */
export function columnsFrom(circuit: Circuit, from: SetUp, fixed: ReadonlySet<string>): Columns {
  const { setUps, all, of } = setUpsFrom(circuit, from, MOST_COLUMNS, fixed);
  return { columns: setUps.map((setUp) => ({ name: nameOf(circuit, setUp), setUp })), all, of };
}

/** Every point that can be probed with all in its place, against the black probe; then every load, across its terminals. */
export function probesOf(bench: Workbench, black: string): readonly Pick<Row, 'red' | 'black'>[] {
  const points = [...bench.network.points.keys()].filter((point) => !point.endsWith('i') && point !== black);
  const loads = linksOf(bench.circuit).filter(({ kind }) => kind === 'load' || kind === 'coil');
  return [
    ...points.map((red) => ({ red, black })),
    ...loads.map(({ ends: [red, other] }) => ({ red, black: other })),
  ];
}

export function sheetOf(
  bench: Workbench,
  columns: readonly Column[],
  probes: readonly Pick<Row, 'red' | 'black'>[],
  fault?: { readonly id: string; readonly label: string; readonly applied: AppliedFault },
): Sheet {
  const faults = fault === undefined ? [] : [fault.applied];
  return {
    fault: fault?.id,
    label: fault?.label ?? 'healthy',
    rows: probes.map(({ red, black }) => ({
      red,
      black,
      volts: columns.map(({ setUp }) => nominalVolts(bench, setUp, red, black, faults)),
    })),
  };
}

/** "12.54", or "0.00 or 12.54" where the circuit can stand in two ways. */
export function voltsWords(volts: readonly number[], digits: number): string {
  const figures = volts.map((value) => value.toFixed(digits).replace(/^-(0\.?0*)$/, '$1'));
  return [...new Set(figures)].join(' or ');
}

function nameOf({ controls }: Circuit, setUp: SetUp): string {
  const moved = [...controls.values()].flatMap(({ id, positions }) => {
    const now = setUp.controls.get(id)!;
    return now === positions[0] ? [] : [`${id} ${now}`];
  });
  const all = setUp.engine === 'running' ? [...moved, 'engine running'] : moved;
  return all.length === 0 ? 'all at rest' : all.join(', ');
}
