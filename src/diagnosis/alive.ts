/** Which severities of a hypothesis still fit, for each history of its fuses that is still possible. */
import type { Axis, Grid } from './grid.js';
import { coordinate } from './grid.js';

/** Fuses blown (mask) → 1 for every place of the grid that still fits. */
export type Alive = ReadonlyMap<number, Uint8Array>;

/** Adds places to the row of a fuse history. */
export function mark(
  alive: Map<number, Uint8Array>,
  size: number,
  blown: number,
  places: Iterable<number>,
): void {
  let row = alive.get(blown);
  if (row === undefined) alive.set(blown, (row = new Uint8Array(size)));
  for (const place of places) row[place] = 1;
}

export function isEmpty(alive: Alive): boolean {
  for (const row of alive.values()) if (row.includes(1)) return false;
  return true;
}

export function mapRows(alive: Alive, f: (row: Uint8Array) => Uint8Array): Alive {
  return new Map([...alive].map(([blown, row]) => [blown, f(row)]));
}

export function without(alive: Alive, place: number): Alive {
  return mapRows(alive, (row) => {
    if (!row[place]) return row;
    const kept = row.slice();
    kept[place] = 0;
    return kept;
  });
}

export function openPlaces(row: Uint8Array): number[] {
  const places = [];
  for (let place = 0; place < row.length; place++) if (row[place]) places.push(place);
  return places;
}

/** Places that fit in any fuse history. */
export function union(alive: Alive, size: number): Uint8Array {
  const all = new Uint8Array(size);
  for (const row of alive.values()) for (let place = 0; place < size; place++) if (row[place]) all[place] = 1;
  return all;
}

/** Extends each open place along the chosen axes: over all cells, and over "healthy" too if asked. */
export function spread(
  grid: Grid,
  row: Uint8Array,
  which: (axis: Axis) => boolean,
  healthy = false,
): Uint8Array {
  let current = row;
  let stride = 1;
  for (const axis of grid.axes) {
    const length = axis.cells + 1;
    if (which(axis)) {
      const wide = current.slice();
      for (let place = 0; place < grid.size; place++) {
        const at = Math.floor(place / stride) % length;
        if (!current[place] || (at === axis.cells && !healthy)) continue;
        const base = place - at * stride;
        for (let k = 0; k < (healthy ? length : axis.cells); k++) wide[base + k * stride] = 1;
      }
      current = wide;
    }
    stride *= length;
  }
  return current;
}

/** Only places at which the chosen axes are healthy: their items are gone. */
export function healed(grid: Grid, row: Uint8Array, gone: readonly boolean[]): Uint8Array {
  const kept = new Uint8Array(grid.size);
  for (let place = 0; place < grid.size; place++) {
    if (!row[place]) continue;
    if (gone.every((isGone, axis) => !isGone || coordinate(grid, place, axis) === grid.axes[axis]!.cells)) {
      kept[place] = 1;
    }
  }
  return kept;
}

/** Lowest and highest surviving edge of each fault; NaN where it can only be healthy. */
export function severityOf(grid: Grid, row: Uint8Array): { low: number; high: number }[] {
  const places = openPlaces(row);
  return grid.axes.map((axis, i) => {
    const along = places.map((place) => coordinate(grid, place, i)).filter((at) => at < axis.cells);
    if (along.length === 0) return { low: NaN, high: NaN };
    const { edges } = axis.fault.scale;
    return { low: edges[Math.min(...along)]!, high: edges[Math.max(...along) + 1]! };
  });
}
