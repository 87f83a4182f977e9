/**
 * The verdict on one hypothesis: is there any severity, any part values inside tolerance and any history of its fuses for which
 * every reading would have come out as recorded? Walks the session's timeline step by step, keeping the severities that still
 * fit; a session that has only grown is walked on from where it stood.
 *
 * The law of this file: true readings never rule out the true fault. Whatever is uncertain widens what fits.
 */
import type { Alive } from './alive.js';
import { healed, isEmpty, mapRows, mark, openPlaces, severityOf, spread, union } from './alive.js';
import type { SoftNote } from './diagnosis-types.js';
import type { Change, Evidence, EvidenceStep } from './evidence-types.js';
import type { Fault } from './faults.js';
import { canBlow } from './faults.js';
import type { Axis, Grid } from './grid.js';
import { makeGrid, placesOf } from './grid.js';
import type { Observation } from './observe.js';
import { fusesAfter, predictedRange, restrict } from './restrict.js';
import { roomOf } from './room.js';
import type { Workbench } from './workbench.js';

/** A fault is always there, or it comes and goes by itself. The two are different explanations of one session. */
export type Course = 'steady' | 'comes and goes';

export interface Fall {
  readonly observation: Observation;
  /** What the hypothesis, as far as it had survived, would have read. */
  readonly low: number;
  readonly high: number;
}

export interface Verdict {
  readonly faults: readonly Fault[];
  readonly course: Course;
  /** The finding that rules it out, or undefined: it still fits. */
  readonly fall: Fall | undefined;
  /** Share of the severity scale that fitted while the complaint was there, 0 to 1 (see room.ts). */
  readonly room: number;
  /** Per fault the severities that fit while the symptom was there: lower and upper edge. */
  readonly severity: readonly { readonly low: number; readonly high: number }[];
  /** Soft evidence for (above 1) or against it. */
  readonly soft: readonly SoftNote[];
  /** A fault of it was touched since the symptom was last seen. */
  readonly touched: boolean;
  /** Masks of fuses that may be open now. */
  readonly blown: readonly number[];
  /** Hard readings with the complaint there since any of its faults was last free to change. */
  readonly stretch: readonly Observation[];
  /** It was repaired, and the complaint stayed. */
  readonly inVain: boolean;
  /** Faults that were there too until they were repaired. */
  readonly besides?: readonly Fault[];
}

const SOFT_MISFIT = 0.2;
const RECOVERED_AFTER_TOUCH = 8;
const RECOVERED_UNTOUCHED = 0.1;
/** A repair may have been done badly, but seldom is (common practice, no source). */
const REPAIRED_IN_VAIN = 0.05;

/**
 * A contact may come good or go bad by being touched, but a fault that has to do so to fit loses this much by each time (common
 * practice, no source: what follows the part at every swap sits in the part).
 */
const CHANGED_BY_TOUCH = 0.3;

/** How far a hypothesis has got in a timeline. */
export interface Progress {
  readonly grid: Grid;
  readonly course: Course;
  readonly alive: Alive;
  readonly fitted: Uint8Array;
  /** Places that fit without anything having changed by being touched since it last had to. */
  readonly held: Uint8Array;
  readonly soft: readonly SoftNote[];
  readonly touched: boolean;
  /** A fuse it had blown was renewed since the symptom was last seen: that alone may have brought things back. */
  readonly fuseRenewed: boolean;
  /** Per fault: what was done to mend it since the failed condition was last repeated; a new part is mended for good. */
  readonly mended: readonly ('not' | 'tried' | 'surely')[];
  readonly inVain: boolean;
  /** Least share of the severity scale that fitted before any touch: what may be anything after it was touched gains nothing by that. */
  readonly mostRoom: number;
  readonly stretch: readonly Observation[];
  readonly fall: Fall | undefined;
}

/** Judges a hypothesis on a whole timeline. */
export function judge(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  course: Course = 'steady',
): Verdict {
  return verdictOf(walk(bench, begin(faults, evidence, course), evidence.steps));
}

/** A hypothesis before anything was found. */
export function begin(faults: readonly Fault[], evidence: Evidence, course: Course): Progress {
  const grid = makeGrid(faults);
  const alive = startingPlaces(grid, evidence, course);
  const fitted = union(alive, grid.size);
  return {
    grid,
    course,
    alive,
    fitted,
    held: fitted,
    soft: [],
    touched: false,
    fuseRenewed: false,
    mended: grid.axes.map(() => 'not'),
    inVain: false,
    mostRoom: 1,
    stretch: [],
    fall: undefined,
  };
}

/** Goes on through the next steps; stops at the first that rules the hypothesis out. */
export function walk(bench: Workbench, progress: Progress, steps: readonly EvidenceStep[]): Progress {
  let now = progress;
  for (const step of steps) {
    if (now.fall !== undefined) break;
    now = advance(bench, now, step);
  }
  return now;
}

export function verdictOf({
  grid,
  course,
  alive,
  fitted,
  soft,
  touched,
  inVain,
  mostRoom,
  stretch,
  fall,
}: Progress): Verdict {
  const faults = grid.axes.map((axis) => axis.fault);
  const common = { faults, course, fall, soft, touched, inVain, stretch };
  if (fall !== undefined) return { ...common, room: 0, severity: [], blown: [] };
  const blown = [...alive].filter(([, row]) => row.includes(1)).map(([mask]) => mask);
  // What is left now may all have burnt, whatever fitted before another fault of the pair was touched.
  const now = grid.axes.length > 1 ? roomOf(union(alive, grid.size), grid) : 1;
  const room = Math.min(mostRoom, roomOf(fitted, grid), now);
  return { ...common, room, severity: severityOf(grid, fitted), blown };
}

function advance(bench: Workbench, now: Progress, step: EvidenceStep): Progress {
  if (step.kind === 'change') return changed(bench, now, step);
  if (step.kind === 'symptom') return symptom(now, step);
  if (step.kind === 'turned') return moved(now);
  if (step.kind === 'look') {
    const factor = step.favours(now.grid.axes.map((axis) => axis.fault));
    return factor === 1 ? now : noted(now, { finding: step.finding, factor, words: step.words });
  }
  const { observation } = step;
  const { grid } = now;
  // One may have been seen before the fuse blew, the other after.
  if (observation.moved === true && grid.axes.some((axis) => canBlow(axis.fault))) return now;
  const there = step.symptom === 'present' ? keptUp(now.alive, grid) : now.alive;
  const after = restrict(bench, there, grid, observation);
  const { finding } = observation;
  if (!observation.hard) {
    if (!isEmpty(after)) return now;
    const words = `${observation.shown} does not fit, but proves nothing yet`;
    // A module that is silent is silent whatever it is asked: that counts once.
    if (observation.kind === 'answer' && now.soft.some((note) => note.words === words)) return now;
    return noted(now, { finding, factor: SOFT_MISFIT, words });
  }
  if (isEmpty(after)) {
    const { low, high } = predictedRange(bench, now.alive, grid, observation);
    return { ...now, fall: { observation, low, high } };
  }
  const words = 'it was repaired, and the complaint stayed';
  const steadied = heldThrough(now, after, observation);
  const then =
    step.again && !now.mended.includes('not')
      ? {
          ...noted(steadied, { finding, factor: REPAIRED_IN_VAIN, words }),
          mended: now.mended.map((how) => (how === 'tried' ? 'not' : how)),
          inVain: true,
        }
      : steadied;
  const since = step.again
    ? { touched: false, fuseRenewed: false }
    : { touched: now.touched, fuseRenewed: now.fuseRenewed };
  if (step.symptom !== 'present')
    return { ...then, ...since, alive: after, fitted: fittedStill({ ...now, ...since }, after) };
  return {
    ...then,
    ...since,
    alive: after,
    fitted: union(after, grid.size),
    stretch: [...now.stretch, observation],
  };
}

/** The complaint has gone, or may have: what comes and goes, or was touched, may be away; all else is as it was. */
function fittedStill({ course, touched, grid, fitted }: Progress, after: Alive): Uint8Array {
  if (course !== 'steady' || touched) return fitted;
  const left = union(keptUp(after, grid), grid.size);
  return left.includes(1) ? left : fitted;
}

/** While the complaint is there its fault is there, or else a fuse that it has blown: that stays open when the short has gone. */
function keptUp(alive: Alive, { size }: Grid): Alive {
  const unblown = alive.get(0);
  if (unblown?.[size - 1] !== 1) return alive;
  const kept = unblown.slice();
  kept[size - 1] = 0;
  return new Map(alive).set(0, kept);
}

/** What held still so far, after one more reading; where nothing did, that it changed by a touch is noted. */
function heldThrough(now: Progress, after: Alive, { finding }: Observation): Progress {
  const left = union(after, now.grid.size);
  const held = now.held.map((open, place) => open & left[place]!);
  if (held.includes(1)) return { ...now, held };
  const words = 'it would have had to change when it was touched';
  return { ...noted(now, { finding, factor: CHANGED_BY_TOUCH, words }), held: left };
}

function noted(now: Progress, note: SoftNote): Progress {
  return { ...now, soft: [...now.soft, note] };
}

/** The complaint came or went by itself. */
function symptom(now: Progress, step: Extract<EvidenceStep, { kind: 'symptom' }>): Progress {
  const { touched, fuseRenewed, course, alive, grid } = now;
  const after = course === 'steady' ? { ...now, held: union(alive, grid.size) } : moved(now);
  if (step.now === 'present') return { ...after, touched: false, fuseRenewed: false };
  if (touched || fuseRenewed) {
    const words = `the complaint went away after ${touched ? 'this was touched' : 'the fuse it had blown was renewed'}`;
    return noted(after, { finding: step.finding, factor: RECOVERED_AFTER_TOUCH, words });
  }
  if (course !== 'steady') return after;
  const words = 'the complaint went away though this was not touched';
  return noted(after, { finding: step.finding, factor: RECOVERED_UNTOUCHED, words });
}

/** Something came or went: what comes and goes may now be anything, or away. */
function moved(now: Progress): Progress {
  const { grid, course, alive } = now;
  if (course === 'steady') return now;
  const anything = mapRows(alive, (row) => spread(grid, row, () => true, true));
  return { ...now, alive: anything, held: union(anything, grid.size), stretch: [] };
}

/**
 * All severities with every fuse whole, and those a short may already have blown in the owner's hands; one that comes and goes may
 * have left the blown fuse behind and be away.
 */
function startingPlaces(grid: Grid, evidence: Evidence, course: Course): Alive {
  const alive = new Map<number, Uint8Array>();
  const all = placesOf(
    grid,
    grid.axes.map((axis) => [0, axis.cells] as const),
  );
  mark(alive, grid.size, 0, all);
  for (const blow of evidence.before(grid)) mark(alive, grid.size, blow.blown, blow.places);
  if (course === 'steady') return alive;
  return new Map([...alive].map(([blown, row]) => [blown, blown === 0 ? row : orAway(grid, row)]));
}

/** Also without each of the faults that can blow a fuse. */
function orAway(grid: Grid, row: Uint8Array): Uint8Array {
  return grid.axes.reduce((found, axis) => {
    if (!canBlow(axis.fault)) return found;
    const only = (other: Axis) => other === axis;
    const without = healed(grid, spread(grid, found, only, true), grid.axes.map(only));
    return found.map((open, place) => open | without[place]!);
  }, row);
}

/** After a touch: the touched faults may have any severity, or be away; a part that was replaced is healthy. */
function changed(bench: Workbench, now: Progress, step: Change): Progress {
  const { grid } = now;
  const mine = grid.axes.map((axis) => step.touched.some((touch) => touch(axis.fault)));
  const free = new Set(grid.axes.filter((_, i) => mine[i]));
  let alive = now.alive;
  if (free.size > 0) alive = mapRows(alive, (row) => spread(grid, row, (axis) => free.has(axis), true));
  if (step.replaced !== undefined) {
    const gone = grid.axes.map((axis) => step.replaced!(axis.fault));
    if (gone.includes(true)) alive = mapRows(alive, (row) => healed(grid, row, gone));
  }
  if (step.movedFuses !== undefined && grid.axes.some((axis) => canBlow(axis.fault))) {
    const moved = new Map<number, Uint8Array>();
    for (const [blown, row] of alive)
      for (const mask of step.movedFuses(blown)) mark(moved, grid.size, mask, openPlaces(row));
    alive = moved;
  }
  if (step.newFuse !== 0) {
    const mended = new Map<number, Uint8Array>();
    for (const [blown, row] of alive) mark(mended, grid.size, blown & ~step.newFuse, openPlaces(row));
    alive = mended;
  }
  if (step.mayClose !== 0) {
    const either = new Map([...alive].map(([blown, row]) => [blown, row.slice()]));
    for (const [blown, row] of alive)
      if ((blown & step.mayClose) !== 0) mark(either, grid.size, blown & ~step.mayClose, openPlaces(row));
    alive = either;
  }
  if (step.standing !== undefined && grid.axes.some((axis) => canBlow(axis.fault)))
    alive = fusesAfter(bench, alive, grid, step.standing);
  return {
    ...now,
    alive,
    held: heldOver(now, step),
    touched: now.touched || (free.size > 0 && !step.operated),
    fuseRenewed: now.fuseRenewed || [...now.alive.keys()].some((blown) => (blown & step.newFuse) !== 0),
    mended: now.mended.map((was, i) => {
      if (was === 'surely' || step.replaced?.(grid.axes[i]!.fault) === true) return 'surely';
      return step.mends?.(grid.axes[i]!.fault) === true ? 'tried' : was;
    }),
    mostRoom: free.size > 0 ? Math.min(now.mostRoom, roomOf(now.fitted, grid)) : now.mostRoom,
    stretch: free.size > 0 ? [] : now.stretch,
  };
}

/** A repair is meant to change what it mends; any other touch is not. */
function heldOver({ grid, held }: Progress, { mends, replaced }: Change): Uint8Array {
  const gone = grid.axes.map(({ fault }) => replaced?.(fault) === true);
  const repaired = new Set(grid.axes.filter(({ fault }, i) => gone[i] || mends?.(fault) === true));
  if (repaired.size === 0) return held;
  const either = spread(grid, held, (axis) => repaired.has(axis), true);
  return gone.includes(true) ? healed(grid, either, gone) : either;
}
