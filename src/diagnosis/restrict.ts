/** Which severities agree with one reading: a box of them is bisected until each part surely fits, surely does not, or is one cell. */
import type { Alive } from './alive.js';
import { mark, openPlaces, spread } from './alive.js';
import { asDrained } from './drained.js';
import type { Axis, Box, Grid } from './grid.js';
import { coordinate, cornersOf, facesOf, halve, placesOf } from './grid.js';
import type { Armature, Observation } from './observe.js';
import type { Question, StateBand } from './question.js';
import { Predictor } from './predict.js';
import type { Workbench } from './workbench.js';

/** What was read, as a prediction has to meet it. */
interface Answer {
  readonly low: number;
  readonly high: number;
  /** Relays that have to stand so. */
  readonly heard: readonly Armature[];
}

const ANYTHING: Answer = { low: -Infinity, high: Infinity, heard: [] };

/** Part of the meter's own band below which the severities of a box are not worth telling apart. */
const GAP = 0.1;

const faultsOf = ({ axes }: Grid) => axes.map(({ fault }) => fault);
const isContact = (axis: Axis) => axis.fault.contact;

/** Places of `alive` that agree with a reading, with the fuses as they stand after it. */
export function restrict(bench: Workbench, alive: Alive, grid: Grid, found: Observation): Alive {
  const observation = asDrained(found, faultsOf(grid));
  const answer = answerFor(bench, grid, observation);
  const next = new Map<number, Uint8Array>();
  const predictor = new Predictor(bench, observation);
  const meter = observation.current === 'meter';
  for (const [blown, places] of alive) {
    const free = meter ? spread(grid, places, isContact) : places;
    const fits =
      grid.axes.length === 1
        ? agreeing(predictor, grid, blown, answer)
        : searchAll(predictor, grid, blown, free, answer);
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
function agreeing(predictor: Predictor, grid: Grid, blown: number, answer: Answer): Alive {
  const { fault } = grid.axes[0]!;
  const { low, high, heard } = answer;
  const stood = heard.map(({ bit, pulled }) => `${bit}${pulled ? '+' : '-'}`).join('');
  return predictor.remember(`${predictor.actsAs(fault, blown)} ${low} ${high} ${stood} ${blown}`, () =>
    searchAll(predictor, grid, blown, new Uint8Array(grid.size).fill(1), answer),
  );
}

/** Welded contacts hold the armature: it may be silent at any volts, and a click is no proof of what they do. */
function answerFor(bench: Workbench, grid: Grid, { low, high, heard = [], quantity }: Observation): Answer {
  const { coils, elements } = bench.network;
  const welded = ({ bit }: Armature) => {
    const { part } = elements[coils[bit]!]!;
    return grid.axes.some(({ fault }) => fault.part === part && fault.kind === 'stuck');
  };
  const own = heard.find(({ bit }) => coils[bit] === quantity.load);
  if (own !== undefined && !own.pulled && welded(own)) return ANYTHING;
  return { low, high, heard: heard.filter((one) => !welded(one)) };
}

function both(a: Uint8Array, b: Uint8Array): Uint8Array {
  return a.map((open, place) => open & b[place]!);
}

function searchAll(
  predictor: Predictor,
  grid: Grid,
  blown: number,
  open: Uint8Array,
  reading: Answer,
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
  reading: Answer,
  fits: Map<number, Uint8Array>,
): void {
  const places = placesOf(grid, box, open);
  if (places.length === 0) return;
  const corners = cornersOf(grid, box);
  // What agrees with every part at its nominal value agrees; only a miss has to be looked at with all tolerances.
  let bands = predictor.bands(corners, blown, true);
  let meeting = bands.filter((band) => meets(band, reading));
  if (meeting.length < bands.length) {
    bands = predictor.bands(corners, blown);
    meeting = bands.filter((band) => meets(band, reading));
  }
  // Where the corners stand differently something else may happen between them: a relay that chatters at middling ohms only.
  const alike = bands.every((band) => band.everywhere);
  if (meeting.length === 0 && alike) return;
  const inside = bands.every(
    (band) => stands(band, reading) && band.low >= reading.low && band.high <= reading.high,
  );
  const fine = GAP * widthOf(reading);
  // Where the ends hardly differ, a finer cut would tell no more.
  const sharp = inside || bands.every((band) => band.gap <= fine);
  // Nor where the same states can be at every corner, as with a flasher, which is always in one of two.
  const halves = sharp && alike ? undefined : halve(box, sideToCut(predictor, grid, box, blown, bands));
  if (halves === undefined) {
    for (const band of meeting) mark(fits, grid.size, band.blown, places);
    return;
  }
  for (const half of halves) search(predictor, grid, half, blown, open, reading, fits);
}

/** Of a reading that is open to one side its end counts for as much as its meter's error would. */
function widthOf({ low, high }: Answer): number {
  if (high - low < Infinity) return high - low;
  return GAP * Math.abs(low === -Infinity ? high : low);
}

function meets(band: StateBand, reading: Answer): boolean {
  return stands(band, reading) && band.low <= reading.high && band.high >= reading.low;
}

/** Whether the relays that were listened to stand as they were heard; one that clicked does not rattle. */
function stands({ pulledIn, staying }: StateBand, { heard }: Answer): boolean {
  if (heard.some(({ bit, pulled }) => ((pulledIn >>> bit) & 1) !== (pulled ? 1 : 0))) return false;
  const clicked = heard.reduce((mask, { bit, pulled }) => (pulled ? mask | (1 << bit) : mask), 0);
  return staying === undefined || staying.some((mask) => (clicked & ~mask) === 0);
}

/** The side across which the prediction changes most, or the longest one where several relay or fuse states mix. */
function sideToCut(
  predictor: Predictor,
  grid: Grid,
  box: Box,
  blown: number,
  bands: readonly StateBand[],
): number {
  const sides = box.flatMap((span, i) => (span !== undefined && span[1] - span[0] > 1 ? [i] : []));
  if (sides.length < 2) return sides[0] ?? 0;
  const length = (side: number) => box[side]![1] - box[side]![0];
  const longest = sides.reduce((best, side) => (length(side) > length(best) ? side : best));
  if (bands.length > 1) return longest;
  const gains = sides.map((side) => {
    const faces = facesOf(grid, box, side).map((corners) => predictor.bands(corners, blown, true));
    return -Math.max(...faces.map(([band]) => (band === undefined ? Infinity : band.high - band.low)));
  });
  const best = Math.max(...gains);
  return best === Math.min(...gains) ? longest : sides[gains.indexOf(best)]!;
}

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
  found: Observation,
): { low: number; high: number } {
  const observation = asDrained(found, faultsOf(grid));
  const predictor = new Predictor(bench, observation);
  const answer = answerFor(bench, grid, observation);
  const bands = [...alive].flatMap(([blown, places]) =>
    boxesOf(grid).flatMap((box) => {
      const tight = tighten(grid, box, places);
      return tight === undefined ? [] : predictor.bands(cornersOf(grid, tight), blown);
    }),
  );
  // Where no relay can stand as it was heard, what it would read as it stands.
  const heard = bands.filter((band) => stands(band, answer));
  const all = heard.length > 0 ? heard : bands;
  return {
    low: Math.min(...all.map(({ low }) => low)),
    high: Math.max(...all.map(({ high }) => high)),
  };
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
  const places = placesOf(grid, box, open);
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
