/** A state on the way: what is left with which weight, what is open, what was read; and where each step leads from there. */
import type { Prepared, PreparedTest } from './prepared.js';

export interface State {
  /** Possibilities left, ascending. */
  readonly who: Int32Array;
  /** Their weights, adding up to 1. */
  readonly weights: Float64Array;
  /** Per place 1 when it is open. */
  readonly open: Uint8Array;
  /** Tests done that look as if they told more, ascending: read again they show the same. */
  readonly done: readonly number[];
}

/** Where a step may lead, and how likely. */
export interface Branch {
  readonly chance: number;
  readonly state: State;
}

export function startOf({ weights, places }: Prepared, open: ReadonlySet<number>): State {
  return {
    who: Int32Array.from(weights, (_, i) => i),
    weights,
    open: Uint8Array.from(places, (_, place) => (open.has(place) ? 1 : 0)),
    done: [],
  };
}

/** The same text for the same state, however it was reached. */
export function keyOf({ certain }: Prepared, { who, weights, open, done }: State): string {
  const codes: number[] = [...open, 0xffff, ...done, 0xffff, ...who];
  if (!certain) {
    for (const weight of weights) {
      // Rounded, for the same weights come about in a different order of products.
      const whole = Math.round(weight * 2 ** 40);
      codes.push((whole >>> 0) >>> 16, whole & 0xffff, Math.floor(whole / 2 ** 32));
    }
  }
  return String.fromCharCode(...codes);
}

/** Would the test tell anything about what is left? */
export function tells(prepared: Prepared, test: number, { who, done }: State): boolean {
  return !done.includes(test) && differs(prepared.tests[test]!, who);
}

function differs({ start, classes, chances, certain }: PreparedTest, who: Int32Array): boolean {
  const first = start[who[0]!]!;
  const length = start[who[0]! + 1]! - first;
  for (let k = 1; k < who.length; k++) {
    const from = start[who[k]!]!;
    if (classes[from] !== classes[first]) return true;
    if (certain) continue;
    if (start[who[k]! + 1]! - from !== length) return true;
    for (let e = 0; e < length; e++)
      if (classes[from + e] !== classes[first + e] || chances[from + e] !== chances[first + e]) return true;
  }
  return false;
}

/** Minutes to open what is closed of these places. */
function openingOf({ places }: Prepared, needed: readonly number[], open: Uint8Array): number {
  let minutes = 0;
  for (const place of needed) if (open[place] === 0) minutes += places[place]!;
  return minutes;
}

/** Minutes of a test from this state, opening counted. */
export function minutesOfTest(prepared: Prepared, test: number, { open }: State): number {
  const { minutes, places } = prepared.tests[test]!;
  return minutes + openingOf(prepared, places, open);
}

/** Minutes to open the place of a repair. */
export function openingForRepair({ places, repairs }: Prepared, repair: number, open: Uint8Array): number {
  const { place } = repairs[repair]!;
  return place < 0 || open[place] === 1 ? 0 : places[place]!;
}

/** Weight of each repair that is left; 0 for the others. */
export function repairWeights({ repairs, repairOf }: Prepared, { who, weights }: State): Float64Array {
  const sums = new Float64Array(repairs.length);
  for (let k = 0; k < who.length; k++) sums[repairOf[who[k]!]!]! += weights[k]!;
  return sums;
}

/** Is all that is left mended by one repair? */
export function settled({ repairOf }: Prepared, { who }: State): boolean {
  for (let k = 1; k < who.length; k++) if (repairOf[who[k]!] !== repairOf[who[0]!]) return false;
  return true;
}

/** What a test leads to, a branch for each class that may show. */
export function branchesOf(prepared: Prepared, test: number, state: State): Branch[] {
  const { start, classes, chances, classCount, places, certain } = prepared.tests[test]!;
  const { who, weights } = state;
  const sums = new Float64Array(classCount);
  const counts = new Int32Array(classCount);
  for (let k = 0; k < who.length; k++) {
    const end = start[who[k]! + 1]!;
    for (let e = start[who[k]!]!; e < end; e++) {
      sums[classes[e]!]! += weights[k]! * chances[e]!;
      counts[classes[e]!]!++;
    }
  }
  const open = opened(state.open, places);
  const branches: { chance: number; state: { who: Int32Array; weights: Float64Array } }[] = [];
  const branchOf = new Int32Array(classCount).fill(-1);
  const filled = new Int32Array(classCount);
  for (let c = 0; c < classCount; c++) {
    if (counts[c] === 0) continue;
    branchOf[c] = branches.length;
    const child = { who: new Int32Array(counts[c]!), weights: new Float64Array(counts[c]!) };
    branches.push({ chance: sums[c]!, state: child });
  }
  for (let k = 0; k < who.length; k++) {
    const end = start[who[k]! + 1]!;
    for (let e = start[who[k]!]!; e < end; e++) {
      const c = classes[e]!;
      const child = branches[branchOf[c]!]!.state;
      child.who[filled[c]!] = who[k]!;
      child.weights[filled[c]!++] = (weights[k]! * chances[e]!) / sums[c]!;
    }
  }
  const done = certain ? state.done : [...state.done, test].sort((a, b) => a - b);
  return branches.map(({ chance, state: child }) => ({
    chance,
    state: { ...child, open, done: stillTelling(prepared, done, child.who) },
  }));
}

/** What is left when a repair was tried and the condition still fails; not for the only repair left. */
export function afterWrong(prepared: Prepared, repair: number, state: State): Branch {
  const { repairOf, repairs } = prepared;
  const kept: number[] = [];
  let chance = 0;
  for (let k = 0; k < state.who.length; k++) {
    if (repairOf[state.who[k]!] === repair) continue;
    kept.push(k);
    chance += state.weights[k]!;
  }
  const { place } = repairs[repair]!;
  const who = Int32Array.from(kept, (k) => state.who[k]!);
  const weights = Float64Array.from(kept, (k) => state.weights[k]! / chance);
  const open = place < 0 ? state.open : opened(state.open, [place]);
  return { chance, state: { who, weights, open, done: stillTelling(prepared, state.done, who) } };
}

/** Tests done that no longer look telling need not be remembered: states that differ in them only are one. */
function stillTelling({ tests }: Prepared, done: readonly number[], who: Int32Array): readonly number[] {
  return done.length === 0 ? done : done.filter((test) => differs(tests[test]!, who));
}

function opened(open: Uint8Array, places: readonly number[]): Uint8Array {
  if (places.every((place) => open[place] === 1)) return open;
  const more = open.slice();
  for (const place of places) more[place] = 1;
  return more;
}
