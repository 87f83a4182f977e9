/**
 * In which states the relays of a network can stand.
 *
 * A coil between its drop-out and its pull-in voltage may hold or not: both are possible, and a prediction must cover both.
 * Where no state is stable the relay chatters; that too is an answer.
 */

/** Volts between which a coil may be in either state; `manner` as in CoilCond. */
export interface CoilBand {
  readonly pullInVolts: number;
  readonly dropOutVolts: number;
  readonly manner?: 'under' | 'alternating';
  /**
   * For a coil with a manner: per contact it moves, masks of the other coils that must be pulled in and dropped for the contact
   * to close. While none can, its whims change nothing, and following them would double the states for nothing.
   */
  readonly beside?: readonly { readonly pulled: number; readonly dropped: number }[];
}

export interface RelayStates {
  /** Pulled-in masks that hold themselves. */
  readonly stable: readonly number[];
  /** Pulled-in masks of states that a relay may chatter between, round by round; empty if none does. */
  readonly chatter: readonly (readonly number[])[];
  /** Masks of coils that may stay pulled in while something chatters. */
  readonly staying: readonly number[];
}

/**
 * A relay lets go at no more than this part of the volts at which it itself pulls in (common practice, no source; data sheets
 * show 0.2 to 0.6). Without it every coil in its band would seem able to chatter.
 */
const HYSTERESIS = 0.8;
/** The same with what circuits differ by added. */
const NEAR_HYSTERESIS = 0.85;
/** Enough for eight coils that may be either way beside a few relays; a network that needs more has no predictable state. */
const MOST_STATES = 1024;

interface Step {
  readonly state: number;
  /** Coils that change here. */
  readonly flip: number;
  readonly volts: ArrayLike<number>;
}

/** A cycle is real only if every coil in it lets go clearly below the volts at which it pulls in; whims are no cycle. */
function canRepeat(cycle: readonly Step[], coils: readonly CoilBand[]): boolean {
  for (let i = 0; i < coils.length; i++) {
    let pullsAt = Infinity;
    let dropsAt = 0;
    for (const { state, flip, volts } of cycle) {
      if (((flip >>> i) & 1) === 0) continue;
      if (coils[i]!.manner !== undefined) return false;
      if ((state >>> i) & 1) dropsAt = Math.max(dropsAt, volts[i]!);
      else pullsAt = Math.min(pullsAt, volts[i]!);
    }
    if (dropsAt > HYSTERESIS * pullsAt) return false;
  }
  return true;
}

/**
 * Coils that may stay pulled in while another one has volts to come and go by, a little leeway for parts that are not at their nominal
 * values counted in: masks, none part of another.
 */
function stayingIn(
  coils: readonly CoilBand[],
  states: readonly number[],
  voltsIn: (state: number) => ArrayLike<number>,
): number[] {
  const masks = new Set<number>();
  coils.forEach(({ manner }, i) => {
    if (manner !== undefined) return;
    const isIn = (state: number) => ((state >>> i) & 1) === 1;
    for (const pulled of states.filter(isIn))
      for (const dropped of states)
        if (!isIn(dropped) && voltsIn(pulled)[i]! <= NEAR_HYSTERESIS * voltsIn(dropped)[i]!)
          masks.add(pulled & dropped);
  });
  const all = [...masks];
  return all.filter((mask) => !all.some((other) => other !== mask && (mask & ~other) === 0));
}

/** Coils that cannot stay (`must`) and those that might change (`may`), as masks. */
function unrest(
  coils: readonly CoilBand[],
  state: number,
  voltsIn: (state: number) => ArrayLike<number>,
): { must: number; may: number } {
  let must = 0;
  let may = 0;
  coils.forEach(({ pullInVolts, dropOutVolts, manner, beside }, i) => {
    const bit = 1 << i;
    if (beside?.every(({ pulled, dropped }) => (state & pulled) !== pulled || (state & dropped) !== 0))
      return;
    // What counts for a shut-down is the current that would flow without it.
    const at = voltsIn(manner === 'under' ? state & ~bit : state)[i]!;
    if (manner !== undefined) {
      if (manner === 'alternating' || at < pullInVolts) may |= bit;
      else if (state & bit) must |= bit;
    } else if (state & bit) {
      if (at < dropOutVolts) must |= bit;
      else if (at <= pullInVolts) may |= bit;
    } else if (at > pullInVolts) must |= bit;
    else if (at >= dropOutVolts) may |= bit;
  });
  return { must, may };
}

function bits(mask: number): number[] {
  const single: number[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) single.push(rest & -rest);
  return single;
}

/**
 * Follows the relays from a starting state, one after the other where their order matters.
 * @param coilVolts absolute volts across each coil's own winding while the relays stand in a state; called once per state
 * @param start pulled-in mask to begin from; 0 = all dropped
 * @param before masks in which the relays may have been left by what was done before: one that feeds its own coil stays
 */
export function settleRelays(
  coils: readonly CoilBand[],
  coilVolts: (pulledIn: number) => ArrayLike<number>,
  start: number,
  before: readonly number[] = [],
): RelayStates {
  const volts = new Map<number, ArrayLike<number>>();
  const voltsIn = (state: number) => {
    let known = volts.get(state);
    if (known === undefined) volts.set(state, (known = coilVolts(state)));
    return known;
  };
  const stable: number[] = [];
  const chatter: number[][] = [];
  const visited = new Set<number>();
  const path: Step[] = [];

  /** @param left what the set-up before has left: what cannot stay goes first */
  const visit = (state: number, left: boolean): void => {
    visited.add(state);
    const { must, may } = unrest(coils, state, voltsIn);
    if (must === 0) stable.push(state);
    // What may change may do so before what must: a chattering neighbour can pull the battery down only for a moment.
    const whims = must !== 0 && left ? [] : bits(may);
    for (const flip of must === 0 ? whims : [...flipsFor(state, must), ...whims]) {
      const next = state ^ flip;
      path.push({ state, flip, volts: voltsIn(state) });
      const back = path.findIndex((step) => step.state === next);
      if (back >= 0) {
        const cycle = path.slice(back);
        if (canRepeat(cycle, coils)) chatter.push(cycle.map((step) => step.state));
      } else if (!visited.has(next) && visited.size < MOST_STATES) visit(next, left);
      path.pop();
    }
  };

  /** Several relays that do not disturb each other change together; otherwise any of them may be first. */
  const flipsFor = (state: number, must: number): number[] => {
    const single = bits(must);
    if (single.length === 1) return single;
    const after = state ^ must;
    return (unrest(coils, after, voltsIn).must & must) === 0 ? [must] : single;
  };

  visit(start, false);
  for (const state of before) if (!visited.has(state)) visit(state, true);
  const given = stable.length === 0 && chatter.length === 0;
  if (given) chatter.push([...visited]);
  const whole = !given && chatter.length > 0 && visited.size < MOST_STATES;
  return { stable, chatter, staying: whole ? stayingIn(coils, [...visited], voltsIn) : [-1] };
}
