/**
 * Orders that need no search: checks of one part each, and repairs tried one after the other. The rule is minutes over probability,
 * the least first: Kalagnanam & Henrion, "A comparison of decision analysis and expert rules for sequential diagnosis" (1990), for
 * checks. With places to open, which serve several repairs, it holds for whole places: Horn, "Single-machine job sequencing with
 * treelike precedence ordering and linear delay penalties" (1972), from memory.
 */
import type { Prepared } from './prepared.js';
import type { State } from './state.js';
import { openingForRepair, repairWeights } from './state.js';

export interface Check {
  /** Prior weight of the one part it checks. */
  readonly weight: number;
  readonly minutes: number;
}

export interface Order {
  /** Numbers in the order they are done; the last needs no check, it is the one that is left. */
  readonly order: readonly number[];
  readonly expectedMinutes: number;
}

/** The best order of checks that each say for certain whether one part is bad, one part being bad. Weights need not add up to 1. */
export function checkingOrder(checks: readonly Check[]): Order {
  const byRule = checks
    .map((_, i) => i)
    .sort((a, b) => checks[a]!.minutes * checks[b]!.weight - checks[b]!.minutes * checks[a]!.weight);
  const total = checks.reduce((sum, { weight }) => sum + weight, 0);
  let best: Order = { order: byRule, expectedMinutes: byRule.length === 0 ? 0 : Infinity };
  // Which one is best left unchecked the rule does not say.
  for (const unchecked of byRule) {
    const order = [...byRule.filter((i) => i !== unchecked), unchecked];
    let [left, expectedMinutes] = [1, 0];
    for (const i of order.slice(0, -1)) {
      expectedMinutes += left * checks[i]!.minutes;
      left -= checks[i]!.weight / total;
    }
    if (expectedMinutes < best.expectedMinutes) best = { order, expectedMinutes };
  }
  return best;
}

export interface Trying {
  /** The repair to try first. */
  readonly first: number;
  /** Expected minutes when nothing but repairs is tried; the right one itself not counted, its opening is. */
  readonly minutes: number;
}

interface Block {
  minutes: number;
  weight: number;
  readonly opening: number;
  readonly repairs: number[];
}

/** The best order of trying repairs without any test. */
export function tryingOf(prepared: Prepared, state: State): Trying {
  const { repairs } = prepared;
  const weights = repairWeights(prepared, state);
  const blocks: Block[] = [];
  const closed = new Map<number, number[]>();
  for (let repair = 0; repair < weights.length; repair++) {
    if (weights[repair] === 0) continue;
    const { place, minutes } = repairs[repair]!;
    if (openingForRepair(prepared, repair, state.open) > 0) {
      const inside = closed.get(place);
      if (inside === undefined) closed.set(place, [repair]);
      else inside.push(repair);
    } else blocks.push({ minutes, weight: weights[repair]!, opening: 0, repairs: [repair] });
  }
  for (const [place, inside] of closed) {
    inside.sort((a, b) => repairs[a]!.minutes * weights[b]! - repairs[b]!.minutes * weights[a]!);
    const opening = prepared.places[place]!;
    const block: Block = { minutes: opening, weight: 0, opening, repairs: [] };
    for (const repair of inside) {
      const { minutes } = repairs[repair]!;
      const weight = weights[repair]!;
      // As long as the next one makes the place more worth opening it belongs to it.
      if (block.repairs.length === 0 || weight * block.minutes > block.weight * minutes) {
        block.minutes += minutes;
        block.weight += weight;
        block.repairs.push(repair);
      } else blocks.push({ minutes, weight, opening: 0, repairs: [repair] });
    }
    blocks.push(block);
  }
  blocks.sort((a, b) => a.minutes * b.weight - b.minutes * a.weight);
  let [spent, minutes] = [0, 0];
  for (const block of blocks) {
    spent += block.opening;
    for (const repair of block.repairs) {
      minutes += weights[repair]! * spent;
      spent += repairs[repair]!.minutes;
    }
  }
  return { first: blocks[0]!.repairs[0]!, minutes };
}
