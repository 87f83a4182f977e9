/** Which severities agree with one reading: a box of them is bisected until each part surely fits, surely does not, or is one cell. */
import type { Alive } from './alive.js';
import { mark, openPlaces, spread } from './alive.js';
import type { Axis, Box, Grid } from './grid.js';
import { coordinate, cornersOf, halve, placesOf } from './grid.js';
import type { Observation } from './observe.js';
import type { Question } from './predict.js';
import { Predictor } from './predict.js';
import type { Workbench } from './workbench.js';

const isContact = (axis: Axis) => axis.fault.contact;

/** Places of `alive` that agree with a reading, with the fuses as they stand after it. */
export function restrict(bench: Workbench, alive: Alive, grid: Grid, observation: Observation): Alive {
  const next = new Map<number, Uint8Array>();
  const predictor = new Predictor(bench, observation);
  const meter = observation.current === 'meter';
  for (const [blown, places] of alive) {
    const free = meter ? spread(grid, places, isContact) : places;
    const fits =
      grid.axes.length === 1
        ? agreeing(predictor, grid, blown, observation)
        : searchAll(predictor, grid, blown, free, observation);
    for (const [after, row] of fits) {
      const here = grid.axes.length === 1 ? both(row, free) : row;
      const kept = meter ? spread(grid, here, isContact) : here;
      const both_ = both(kept, places);
      if (both_.includes(1)) mark(next, grid.size, after, openPlaces(both_));
    }
  }
  return next;
}

/** All cells of a single fault that agree, remembered under what it acts as. */
function agreeing(
  predictor: Predictor,
  grid: Grid,
  blown: number,
  { low, high }: { readonly low: number; readonly high: number },
): Alive {
  const { fault } = grid.axes[0]!;
  return predictor.remember(`${predictor.actsAs(fault, blown)} ${low} ${high} ${blown}`, () =>
    searchAll(predictor, grid, blown, new Uint8Array(grid.size).fill(1), { low, high }),
  );
}

function both(a: Uint8Array, b: Uint8Array): Uint8Array {
  return a.map((open, place) => open & b[place]!);
}

function searchAll(
  predictor: Predictor,
  grid: Grid,
  blown: number,
  open: Uint8Array,
  reading: { readonly low: number; readonly high: number },
): Map<number, Uint8Array> {
  const fits = new Map<number, Uint8Array>();
  for (const box of boxesOf(grid)) search(predictor, grid, box, blown, open, reading, fits);
  return fits;
}

function search(
  predictor: Predictor,
  grid: Grid,
  box: Box,
  blown: number,
  open: Uint8Array,
  reading: { readonly low: number; readonly high: number },
  fits: Map<number, Uint8Array>,
): void {
  const places = placesOf(grid, box).filter((place) => open[place]);
  if (places.length === 0) return;
  const bands = predictor.bands(cornersOf(grid, box), blown);
  const meeting = bands.filter((band) => band.low <= reading.high && band.high >= reading.low);
  if (meeting.length === 0) return;
  const inside = bands.every((band) => band.low >= reading.low && band.high <= reading.high);
  const halves = inside && bands.length === 1 ? undefined : halve(box);
  if (halves === undefined) {
    for (const band of meeting) mark(fits, grid.size, band.blown, places);
    return;
  }
  for (const half of halves) search(predictor, grid, half, blown, open, reading, fits);
}

const ANYTHING = { low: -Infinity, high: Infinity };

/** The same places, with every fuse history to which the set-up may lead. */
export function fusesAfter(bench: Workbench, alive: Alive, grid: Grid, standing: Question): Alive {
  const next = new Map([...alive].map(([blown, row]) => [blown, row.slice()]));
  const predictor = new Predictor(bench, standing);
  for (const [blown, row] of alive) {
    const fits =
      grid.axes.length === 1
        ? agreeing(predictor, grid, blown, ANYTHING)
        : searchAll(predictor, grid, blown, row, ANYTHING);
    for (const [after, places] of fits) {
      if (after !== blown) mark(next, grid.size, after, openPlaces(both(places, row)));
    }
  }
  return next;
}

/** What the surviving severities would have read, for the reason of a fall. */
export function predictedRange(
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

/** Fuses that a set-up may blow from whole ones, with the severities at which it may; for what happened before the session. */
export function blownBy(
  bench: Workbench,
  grid: Grid,
  standing: Question,
): { blown: number; places: number[] }[] {
  const whole = new Map([[0, new Uint8Array(grid.size).fill(1)]]);
  return [...fusesAfter(bench, whole, grid, standing)]
    .filter(([blown]) => blown !== 0)
    .map(([blown, row]) => ({ blown, places: openPlaces(row) }));
}
