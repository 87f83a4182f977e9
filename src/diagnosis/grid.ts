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
  /** The fault at each edge, as the lower or the upper end of a cell: widened by the drift that a contact may show between two readings. */
  readonly lower: readonly AppliedFault[];
  readonly upper: readonly AppliedFault[];
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
  const axes = faults.map((fault) => axisOf(fault, faults.length > 1));
  return { axes, size: axes.reduce((product, axis) => product * (axis.cells + 1), 1) };
}

/** Axes are kept, so that a fault at one edge is one object: what was solved for it is found again without spelling it out. */
const kept = { alone: new WeakMap<Fault, Axis>(), beside: new WeakMap<Fault, Axis>() };

function axisOf(fault: Fault, several: boolean): Axis {
  const axes = several ? kept.beside : kept.alone;
  const known = axes.get(fault);
  if (known !== undefined) return known;
  const drift = fault.contact ? DRIFT : 1;
  const scale = several ? coarser(fault.scale, COARSE) : fault.scale;
  const { edges } = scale;
  const axis = {
    fault: { ...fault, scale },
    cells: cellCount(scale),
    absent: several ? mildestEdge(fault, edges.length) : -1,
    lower: edges.map((edge) => fault.apply(edge / drift)),
    upper: edges.map((edge) => fault.apply(edge * drift)),
  };
  axes.set(fault, axis);
  return axis;
}

/** Edge at which a fault does next to nothing: no ohms in series, or insulation as good as new. */
function mildestEdge(fault: Fault, edges: number): number {
  const { edges: all, unit } = fault.scale;
  // Held at one severity it is never not there.
  if (unit !== 'ohm' || all[0] === all.at(-1)) return -1;
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

/** Every place of a box, as grid numbers; only those that are open, if that is asked. */
export function placesOf(grid: Grid, box: Box, open?: Uint8Array): number[] {
  const places: number[] = [];
  const strides: number[] = [];
  grid.axes.reduce((stride, { cells }) => (strides.push(stride), stride * (cells + 1)), 1);
  const along = (i: number, base: number): void => {
    if (i < 0) {
      if (open === undefined || open[base]) places.push(base);
      return;
    }
    const [from, to] = box[i] ?? [grid.axes[i]!.cells, grid.axes[i]!.cells + 1];
    for (let at = from; at < to; at++) along(i - 1, base + at * strides[i]!);
  };
  along(box.length - 1, 0);
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
      return [end === 0 ? lower[span[0]]! : upper[span[1]]!];
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
