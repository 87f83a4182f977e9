/**
 * The severities of a hypothesis as a grid: one axis per fault, its cells in order and one extra place at the end, "healthy
 * now" (an intermittent fault that is away, or a contact that a touch has mended).
 */
import type { AppliedFault } from '../network/solver-types.js';
import type { Fault } from './faults.js';
import { cellCount, coarser, DRIFT } from './severity.js';

export interface Axis {
  readonly fault: Fault;
  /** Cells of the scale; the place of "healthy" is this number. */
  readonly cells: number;
  /** Edges widened by the drift that a contact may show between two readings. */
  readonly lower: readonly number[];
  readonly upper: readonly number[];
}

/** Two faults at once are judged on cells of this many single ones: two decades of ohms. */
const COARSE = 6;

export interface Grid {
  readonly axes: readonly Axis[];
  /** Places in all: the product of (cells + 1). */
  readonly size: number;
}

export function makeGrid(faults: readonly Fault[]): Grid {
  const axes = faults.map((fault): Axis => {
    const drift = fault.contact ? DRIFT : 1;
    const scale = faults.length > 1 ? coarser(fault.scale, COARSE) : fault.scale;
    const { edges } = scale;
    return {
      fault: { ...fault, scale },
      cells: cellCount(scale),
      lower: edges.map((edge) => edge / drift),
      upper: edges.map((edge) => edge * drift),
    };
  });
  return { axes, size: axes.reduce((product, axis) => product * (axis.cells + 1), 1) };
}

/** Position along one axis of a place in the grid. */
export function coordinate(grid: Grid, place: number, axis: number): number {
  let rest = place;
  for (let i = 0; i < axis; i++) rest = Math.floor(rest / (grid.axes[i]!.cells + 1));
  return rest % (grid.axes[axis]!.cells + 1);
}

/** A box of cells: per axis first and one past the last cell, or undefined for "healthy". */
export type Box = readonly (readonly [number, number] | undefined)[];

/** Every place of a box, as grid numbers. */
export function placesOf(grid: Grid, box: Box): number[] {
  let places = [0];
  let stride = 1;
  box.forEach((span, i) => {
    const { cells } = grid.axes[i]!;
    const along =
      span === undefined ? [cells] : Array.from({ length: span[1] - span[0] }, (_, k) => span[0] + k);
    places = places.flatMap((place) => along.map((at) => place + at * stride));
    stride *= cells + 1;
  });
  return places;
}

/** The faults at every corner of a box. */
export function cornersOf(grid: Grid, box: Box): AppliedFault[][] {
  let corners: AppliedFault[][] = [[]];
  box.forEach((span, i) => {
    if (span === undefined) return;
    const { fault, lower, upper } = grid.axes[i]!;
    const ends = fault.scale.unit === 'none' ? [lower[span[0]]!] : [lower[span[0]]!, upper[span[1]]!];
    corners = corners.flatMap((corner) => ends.map((severity) => [...corner, fault.apply(severity)]));
  });
  return corners;
}

/** Cuts a box in two across its longest side; undefined when it is a single cell. */
export function halve(box: Box): [Box, Box] | undefined {
  let longest = -1;
  let length = 1;
  box.forEach((span, i) => {
    if (span !== undefined && span[1] - span[0] > length) {
      longest = i;
      length = span[1] - span[0];
    }
  });
  const span = box[longest];
  if (span === undefined) return undefined;
  const middle = (span[0] + span[1]) >> 1;
  const replace = (part: readonly [number, number]): Box => box.map((old, i) => (i === longest ? part : old));
  return [replace([span[0], middle]), replace([middle, span[1]])];
}
