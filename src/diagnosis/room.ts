/** How much of the severity scale a hypothesis still has, as weight for its rank. It rules nothing out. */
import { openPlaces } from './alive.js';
import type { Axis, Grid } from './grid.js';
import { coordinate } from './grid.js';

/** A severity at which the wire would have burnt, against any other (common practice, no source). */
const BURNT = 0.02;

/**
 * Share of the severity scale that is open in a row, 0 to 1; what would have burnt counts little. Several faults together are ranked
 * without regard to how much of their box fits: 1, or what is left if all of it would have burnt.
 */
export function roomOf(row: Uint8Array, grid: Grid): number {
  const open = openPlaces(row);
  const several = grid.axes.length > 1;
  if (grid.axes.every(({ fault }) => fault.burnsBelow === undefined))
    return several ? Math.min(1, open.length) : open.length / grid.size;
  const weights = grid.axes.map(weightsOf);
  const each = open.map((place) => weightOf(grid, place, weights));
  return several ? Math.max(0, ...each) : each.reduce((sum, weight) => sum + weight, 0) / grid.size;
}

function weightOf(grid: Grid, place: number, weights: readonly (readonly number[])[]): number {
  return weights.reduce((product, list, i) => product * list[coordinate(grid, place, i)]!, 1);
}

/** Per place of an axis, "healthy" the last. A cell that would have burnt over half of its length counts as burnt. */
function weightsOf({ fault: { scale, burnsBelow }, cells }: Axis): number[] {
  const { edges } = scale;
  const burns = (cell: number) =>
    cell < cells && burnsBelow !== undefined && Math.sqrt(edges[cell]! * edges[cell + 1]!) <= burnsBelow;
  return Array.from({ length: cells + 1 }, (_, cell) => (burns(cell) ? BURNT : 1));
}
