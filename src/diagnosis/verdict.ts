/**
 * The verdict on one hypothesis: is there any severity, any part values inside tolerance and any history of its fuses for which
 * every reading would have come out as recorded? Walks the session's timeline once, keeping the severities that still fit.
 *
 * The law of this file: true readings never rule out the true fault. Whatever is uncertain widens what fits.
 */
import type { Fault } from './faults.js';
import { canBlow } from './faults.js';
import type { Box, Grid } from './grid.js';
import { coordinate, cornersOf, halve, makeGrid, placesOf } from './grid.js';
import type { Observation } from './observe.js';
import { Predictor } from './predict.js';
import type { Change, Evidence } from './evidence-types.js';
import type { Workbench } from './workbench.js';

export interface Fall {
  readonly observation: Observation;
  /** What the hypothesis, as far as it had survived, would have read. */
  readonly low: number;
  readonly high: number;
}

export interface Verdict {
  readonly faults: readonly Fault[];
  /** The finding that rules it out, or undefined: it still fits. */
  readonly fall: Fall | undefined;
  /** Share of the severity scale that fitted while the complaint was there, 0 to 1. */
  readonly room: number;
  /** Per fault the severities that fit while the symptom was there: lower and upper edge. */
  readonly severity: readonly { readonly low: number; readonly high: number }[];
  /** Soft evidence against (below 1) or for it. */
  readonly favour: number;
  /** A fault of it was touched since the symptom was last seen. */
  readonly touched: boolean;
}

/** Fuse histories still possible, and for each the places of the grid that still fit. */
type Alive = Map<number, Uint8Array>;

const SOFT_MISFIT = 0.2;
const RECOVERED_AFTER_TOUCH = 8;
const RECOVERED_UNTOUCHED = 0.1;

export function judge(bench: Workbench, faults: readonly Fault[], evidence: Evidence): Verdict {
  const grid = makeGrid(faults);
  const healthyPlace = grid.size - 1;
  let alive: Alive = startingPlaces(grid, evidence);
  let fitted: Uint8Array = union(alive, grid.size);
  let favour = 1;
  let touched = false;
  for (const step of evidence.steps) {
    if (step.kind === 'change') {
      alive = change(alive, grid, step);
      const mine = step.touched.some((touch) => faults.some((fault) => touch(fault)));
      touched ||= mine && !step.operated;
      alive = operate(bench, alive, grid, step);
      continue;
    }
    if (step.kind === 'symptom') {
      // It came or went by itself: an intermittent fault may now be anything, or away.
      if (step.now === 'absent') favour *= touched ? RECOVERED_AFTER_TOUCH : RECOVERED_UNTOUCHED;
      else touched = false;
      alive = release(alive, grid, () => true);
      continue;
    }
    const { observation } = step;
    // While the complaint is there, its fault is there.
    const there = step.symptom === 'present' ? forbid(alive, healthyPlace) : alive;
    const after = restrict(bench, there, grid, observation);
    if (!observation.hard) {
      if (isEmpty(after)) favour *= SOFT_MISFIT;
      continue;
    }
    if (isEmpty(after)) {
      const { low, high } = predictedRange(bench, alive, grid, observation);
      return { faults, fall: { observation, low, high }, room: 0, severity: [], favour, touched };
    }
    alive = after;
    if (step.symptom === 'present') fitted = union(alive, grid.size);
  }
  for (const favours of evidence.looks) favour *= favours(faults);
  const room = count(fitted) / grid.size;
  return { faults, fall: undefined, room, severity: severityOf(grid, fitted), favour, touched };
}

/** All severities with every fuse whole, and those a short may already have blown in the owner's hands. */
function startingPlaces(grid: Grid, evidence: Evidence): Alive {
  const alive: Alive = new Map();
  const all = cellsOf(grid);
  alive.set(0, all);
  for (const blow of evidence.before(grid)) mark(alive, grid.size, blow.blown, blow.places);
  return alive;
}

/** Every place at which no fault is healthy. */
function cellsOf(grid: Grid): Uint8Array {
  const places = new Uint8Array(grid.size);
  for (const place of placesOf(
    grid,
    grid.axes.map((axis) => [0, axis.cells] as const),
  ))
    places[place] = 1;
  return places;
}

function mark(alive: Alive, size: number, blown: number, places: Iterable<number>): void {
  let row = alive.get(blown);
  if (row === undefined) alive.set(blown, (row = new Uint8Array(size)));
  for (const place of places) row[place] = 1;
}

/** Places of `alive` that agree with a reading, with the fuses as they stand after it. */
function restrict(bench: Workbench, alive: Alive, grid: Grid, observation: Observation): Alive {
  const next: Alive = new Map();
  const predictor = new Predictor(bench, observation);
  for (const [blown, places] of alive) {
    const free = observation.current === 'meter' ? spread(grid, places, isContact) : places;
    const fits: Alive = new Map();
    for (const box of boxesOf(grid)) search(predictor, grid, box, blown, free, observation, fits);
    for (const [after, row] of fits) {
      const kept = observation.current === 'meter' ? spread(grid, row, isContact) : row;
      const places_ = [];
      for (let place = 0; place < grid.size; place++) if (kept[place] && places[place]) places_.push(place);
      if (places_.length > 0) mark(next, grid.size, after, places_);
    }
  }
  return next;
}

/** Bisects a box of severities until each part surely fits, surely does not, or is a single cell. */
function search(
  predictor: Predictor,
  grid: Grid,
  box: Box,
  blown: number,
  open: Uint8Array,
  observation: Pick<Observation, 'low' | 'high'>,
  fits: Alive,
): void {
  const places = placesOf(grid, box).filter((place) => open[place]);
  if (places.length === 0) return;
  const bands = predictor.bands(cornersOf(grid, box), blown);
  const meeting = bands.filter((band) => band.low <= observation.high && band.high >= observation.low);
  if (meeting.length === 0) return;
  const inside = bands.every((band) => band.low >= observation.low && band.high <= observation.high);
  const halves = inside && bands.length === 1 ? undefined : halve(box);
  if (halves === undefined) {
    for (const band of meeting) mark(fits, grid.size, band.blown, places);
    return;
  }
  for (const half of halves) search(predictor, grid, half, blown, open, observation, fits);
}

/** The boxes that make up a grid: each fault either anywhere on its scale or healthy. */
function boxesOf(grid: Grid): Box[] {
  return grid.axes.reduce<Box[]>(
    (boxes, axis) =>
      boxes.flatMap((box) => [
        [...box, [0, axis.cells] as const],
        [...box, undefined],
      ]),
    [[]],
  );
}

/** What the surviving severities would have read, for the reason of a fall. */
function predictedRange(
  bench: Workbench,
  alive: Alive,
  grid: Grid,
  observation: Observation,
): { low: number; high: number } {
  const predictor = new Predictor(bench, observation);
  let low = Infinity;
  let high = -Infinity;
  for (const [blown, places] of alive) {
    for (const box of boxesOf(grid)) {
      const tight = tighten(grid, box, places);
      if (tight === undefined) continue;
      for (const band of predictor.bands(cornersOf(grid, tight), blown)) {
        low = Math.min(low, band.low);
        high = Math.max(high, band.high);
      }
    }
  }
  return { low, high };
}

/** The smallest box around the open places of a box. */
function tighten(grid: Grid, box: Box, open: Uint8Array): Box | undefined {
  const places = placesOf(grid, box).filter((place) => open[place]);
  if (places.length === 0) return undefined;
  return box.map((span, axis) => {
    if (span === undefined) return undefined;
    const along = places.map((place) => coordinate(grid, place, axis));
    return [Math.min(...along), Math.max(...along) + 1] as const;
  });
}

/** After a touch: the touched faults may have any severity, or be away; a part that was replaced is healthy. */
function change(alive: Alive, grid: Grid, step: Change): Alive {
  let next = release(alive, grid, (fault) => step.touched.some((touch) => touch(fault)));
  if (step.replaced !== undefined) {
    const { replaced } = step;
    const gone = grid.axes.map((axis) => replaced(axis.fault));
    next = mapRows(next, (row) => {
      const kept = new Uint8Array(grid.size);
      for (let place = 0; place < grid.size; place++) {
        if (!row[place]) continue;
        if (gone.every((isGone, axis) => !isGone || coordinate(grid, place, axis) === grid.axes[axis]!.cells))
          kept[place] = 1;
      }
      return kept;
    });
  }
  if (step.newFuse !== 0) {
    const mended: Alive = new Map();
    for (const [blown, row] of next) mark(mended, grid.size, blown & ~step.newFuse, openPlaces(row));
    next = mended;
  }
  return next;
}

/** Lets every fault that `which` names take any severity or be healthy; the others stay where they are. */
function release(alive: Alive, grid: Grid, which: (fault: Fault) => boolean): Alive {
  if (!grid.axes.some((axis) => which(axis.fault))) return alive;
  return mapRows(alive, (row) => spread(grid, row, (axis) => which(grid.axes[axis]!.fault), true));
}

function isContact(axis: number, grid: Grid): boolean {
  return grid.axes[axis]!.fault.contact;
}

/** Extends each open place along the chosen axes: over all cells, and over "healthy" too if asked. */
function spread(
  grid: Grid,
  row: Uint8Array,
  which: (axis: number, grid: Grid) => boolean,
  healthy = false,
): Uint8Array {
  let current = row;
  let stride = 1;
  grid.axes.forEach((axis, i) => {
    const length = axis.cells + 1;
    if (which(i, grid)) {
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
  });
  return current;
}

/** The standing set-up after an action may blow a fuse before anything is read. */
function operate(bench: Workbench, alive: Alive, grid: Grid, step: Change): Alive {
  if (step.standing === undefined || !grid.axes.some((axis) => canBlow(axis.fault))) return alive;
  const next: Alive = new Map([...alive].map(([blown, row]) => [blown, row.slice()]));
  const predictor = new Predictor(bench, step.standing);
  for (const [blown, row] of alive) {
    const fits: Alive = new Map();
    for (const box of boxesOf(grid))
      search(predictor, grid, box, blown, row, { low: -Infinity, high: Infinity }, fits);
    for (const [after, places] of fits) if (after !== blown) mark(next, grid.size, after, openPlaces(places));
  }
  return next;
}

/** Places a set-up can have reached with fuses blown, from whole fuses; for what happened before the session. */
export function blownBy(
  bench: Workbench,
  grid: Grid,
  standing: Change['standing'] & object,
): { blown: number; places: number[] }[] {
  if (!grid.axes.some((axis) => canBlow(axis.fault))) return [];
  const fits: Alive = new Map();
  const all = new Uint8Array(grid.size).fill(1);
  const predictor = new Predictor(bench, standing);
  search(
    predictor,
    grid,
    grid.axes.map((axis) => [0, axis.cells] as const),
    0,
    all,
    { low: -Infinity, high: Infinity },
    fits,
  );
  return [...fits]
    .filter(([blown]) => blown !== 0)
    .map(([blown, row]) => ({ blown, places: openPlaces(row) }));
}

function forbid(alive: Alive, place: number): Alive {
  return mapRows(alive, (row) => {
    const kept = row.slice();
    kept[place] = 0;
    return kept;
  });
}

function mapRows(alive: Alive, f: (row: Uint8Array) => Uint8Array): Alive {
  return new Map([...alive].map(([blown, row]) => [blown, f(row)]));
}

function openPlaces(row: Uint8Array): number[] {
  const places = [];
  for (let place = 0; place < row.length; place++) if (row[place]) places.push(place);
  return places;
}

function union(alive: Alive, size: number): Uint8Array {
  const all = new Uint8Array(size);
  for (const row of alive.values()) for (let place = 0; place < size; place++) if (row[place]) all[place] = 1;
  return all;
}

function count(row: Uint8Array): number {
  return openPlaces(row).length;
}

function isEmpty(alive: Alive): boolean {
  for (const row of alive.values()) if (row.includes(1)) return false;
  return true;
}

/** Lowest and highest edge of the surviving cells of each fault. */
function severityOf(grid: Grid, row: Uint8Array): { low: number; high: number }[] {
  const places = openPlaces(row);
  return grid.axes.map((axis, i) => {
    const along = places.map((place) => coordinate(grid, place, i)).filter((at) => at < axis.cells);
    if (along.length === 0) return { low: NaN, high: NaN };
    const { edges } = axis.fault.scale;
    return { low: edges[Math.min(...along)]!, high: edges[Math.max(...along) + 1]! };
  });
}
