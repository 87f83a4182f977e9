/** Compares readings with ngspice and sums them up by what was read or read with. */
import type { SpiceCase } from './netlist.js';
import type { Ngspice } from './ngspice.js';

export interface TableReading {
  /** Row of the table: a part type or an instrument. */
  readonly row: string;
  /** What was read in which condition, for a reading that differs. */
  readonly what: string;
  readonly ours: number;
  /** One network, or for a mean the networks it is made of; the shares add up to 1. */
  readonly cases: readonly { readonly spice: SpiceCase; readonly share: number }[];
  /** What the instrument shows for volts per node. */
  readonly value: (volts: Float64Array, spice: SpiceCase) => number;
}

export interface TableRow {
  readonly row: string;
  readonly readings: number;
  /** Largest |difference|, in the unit of the instrument (V, A). */
  readonly worst: number;
  /** Readings off by more than 1 mV (1 mA) + 0.1 %, as text. */
  readonly differing: readonly string[];
  /** Readings for which ngspice found no operating point, as text; not among `readings`. */
  readonly unsettled: readonly string[];
}

/**
 * Part of the readings of a long run at which ngspice may find no operating point: its Newton steps stumble over the kinks of
 * ideal diodes.
 */
export const MOST_UNSETTLED = 0.002;

const LIMIT = 1e-3;
const LIMIT_PART = 1e-3;

export async function compareReadings(
  ngspice: Ngspice,
  readings: readonly TableReading[],
): Promise<TableRow[]> {
  const found = await ngspice.trySolve(readings.flatMap(({ cases }) => cases.map(({ spice }) => spice)));
  const rows = new Map<
    string,
    { readings: number; worst: number; differing: string[]; unsettled: string[] }
  >();
  let next = 0;
  for (const { row, what, ours, cases, value } of readings) {
    const sum = rows.get(row) ?? { readings: 0, worst: 0, differing: [], unsettled: [] };
    rows.set(row, sum);
    let theirs: number | undefined = 0;
    for (const { spice, share } of cases) {
      const volts = found[next++]!;
      if (typeof volts === 'string') theirs = undefined;
      else if (theirs !== undefined) theirs += share * value(volts, spice);
    }
    if (theirs === undefined) {
      sum.unsettled.push(what);
      continue;
    }
    const off = Math.abs(ours - theirs);
    sum.readings += 1;
    sum.worst = Math.max(sum.worst, off);
    if (!(off <= LIMIT + LIMIT_PART * Math.abs(theirs)))
      sum.differing.push(`${row}: ${what}: ${ours} here, ${theirs} in ngspice`);
  }
  return [...rows].map(([row, sum]) => ({ row, ...sum }));
}

/** One line per row, for the console. */
export function tableText(rows: readonly TableRow[]): string {
  const cells = [
    ['part type or meter', 'readings', 'largest difference', 'differing', 'no answer from ngspice'],
    ...rows.map(({ row, readings, worst, differing, unsettled }) => [
      row,
      String(readings),
      worst.toExponential(1),
      String(differing.length),
      String(unsettled.length),
    ]),
  ];
  const widths = cells[0]!.map((_, column) => Math.max(...cells.map((line) => line[column]!.length)));
  return cells
    .map((line) =>
      line
        .map((cell, i) => cell.padEnd(widths[i]!))
        .join(' | ')
        .trimEnd(),
    )
    .join('\n');
}
