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
  /**
   * Edge that stands for "not there at all" when several faults are judged at once, −1 for none: the mildest one is taken for
   * nothing, which only widens its cell, and the corner costs no solve of its own.
   */
  readonly absent: number;
}

/** Two faults at once are judged on cells of this many single ones: a decade of ohms. */
const COARSE = 3;

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
      absent: faults.length === 1 ? -1 : mildestEdge(fault, edges.length),
      lower: edges.map((edge) => edge / drift),
      upper: edges.map((edge) => edge * drift),
    };
  });
  return { axes, size: axes.reduce((product, axis) => product * (axis.cells + 1), 1) };
}

/** Edge at which a fault does next to nothing: no ohms in series, or insulation as good as new. */
function mildestEdge(fault: Fault, edges: number): number {
  if (fault.scale.unit !== 'ohm') return -1;
  const { kind } = fault.apply(1);
  if (kind === 'series') return 0;
  return kind === 'shunt' || kind === 'bridge' ? edges - 1 : -1;
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

/** The faults at every corner of a box. `held`: an axis and the one end (0, 1) of it that counts. */
export function cornersOf(
  grid: Grid,
  box: Box,
  held?: readonly [axis: number, end: number],
): AppliedFault[][] {
  let corners: AppliedFault[][] = [[]];
  box.forEach((span, i) => {
    if (span === undefined) return;
    const { fault, lower, upper, absent } = grid.axes[i]!;
    const ends = (fault.scale.unit === 'none' ? [0] : held?.[0] === i ? [held[1]] : [0, 1]).map((end) => {
      if (span[end] === absent) return [];
      return [fault.apply(end === 0 ? lower[span[0]]! : upper[span[1]]!)];
    });
    corners = corners.flatMap((corner) => ends.map((end) => [...corner, ...end]));
  });
  return corners;
}

/** Cuts a box in two across one side; undefined when it is one cell long there, or healthy. */
export function halve(box: Box, axis: number): [Box, Box] | undefined {
  const span = box[axis];
  if (span === undefined || span[1] - span[0] < 2) return undefined;
  const middle = (span[0] + span[1]) >> 1;
  const replace = (part: readonly [number, number]): Box => box.map((old, i) => (i === axis ? part : old));
  return [replace([span[0], middle]), replace([middle, span[1]])];
}

/** Corners of the two faces of a box across one side. */
export function facesOf(grid: Grid, box: Box, axis: number): readonly [AppliedFault[][], AppliedFault[][]] {
  return [cornersOf(grid, box, [axis, 0]), cornersOf(grid, box, [axis, 1])];
}
