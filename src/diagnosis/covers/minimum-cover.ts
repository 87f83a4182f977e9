/**
 * The cheapest choice of sets that covers everything, exactly: the fewest findings to re-take, the likeliest faults
 * (cost = −log of the prior odds). Depth-first branch and bound; needs no solver and answers in milliseconds at the
 * size of a vehicle circuit (tens of findings, hundreds of faults).
 *
 * Dominated sets and elements leave first; each branch is bounded from below by prices, and a set whose reduced cost is
 * more than the gap to the best known cover is left out of it.
 */
import {
  countCommon,
  emptyBits,
  hasBit,
  isEmpty,
  addBit,
  membersOf,
  removeBit,
  subtract,
  type Bitset,
} from './bitset.js';
import { undominated } from './dominance.js';
import { familyOf, type Family } from './family.js';
import { prices, type PricedFamily } from './prices.js';

export interface Cover {
  /** Rising indices of the chosen sets; none of them can be left out. */
  readonly members: readonly number[];
  readonly cost: number;
}

/**
 * A cover of least total cost; the same input always gives the same one.
 *
 * @param universeSize elements are 0 … universeSize − 1
 * @param sets         what each set covers
 * @param costs        cost per set, finite and ≥ 0 (fractions: exact to one part in 10⁹). Left out: 1 each, so the
 *                     answer has the fewest sets
 * @returns undefined when some element is in no set
 * @throws RangeError on an element outside the universe or an unusable cost
 */
export function minimumCover(
  universeSize: number,
  sets: readonly (readonly number[])[],
  costs: readonly number[] = sets.map(() => 1),
): Cover | undefined {
  const family = familyOf(universeSize, sets);
  for (const s of sets.keys()) {
    if (!(costs[s]! >= 0 && costs[s]! < Infinity)) throw new RangeError(`Set ${s} has the cost ${costs[s]}.`);
  }
  if (family.coveredBy.some(isEmpty)) return undefined;
  const { sets: columns, elements } = undominated(family, costs);
  const first = withoutSpares(family, elements, costs, greedy(family, elements, columns, costs));
  const best = improve(family, elements, columns, costs, first);
  const members = withoutSpares(family, elements, costs, best).sort((a, b) => a - b);
  return { members, cost: total(members, costs) };
}

/** Branch and bound from a first cover to a best one. */
function improve(
  family: Family,
  elements: Bitset,
  columns: Bitset,
  costs: readonly number[],
  first: readonly number[],
): readonly number[] {
  const priced: PricedFamily = {
    covers: family.covers.map((cover) => membersOf(cover).filter((e) => hasBit(elements, e))),
    coveredBy: family.coveredBy.map((by) => membersOf(by).filter((s) => hasBit(columns, s))),
    costs,
  };
  let best = first;
  let bestCost = total(first, costs);
  if (bestCost === 0) return first;
  // Whole costs can only improve by whole numbers.
  const step = costs.every(Number.isInteger) ? 1 - 1e-6 : 1e-9 * bestCost;
  const chosen: number[] = [];

  function branch(uncovered: Bitset, allowed: Bitset, cost: number, start?: Float64Array): void {
    if (isEmpty(uncovered)) {
      best = [...chosen];
      bestCost = cost;
      return;
    }
    const gap = (): number => bestCost - step - cost;
    const { bound, reduced, price } = prices(priced, uncovered, allowed, gap(), start);
    if (bound > gap()) return;
    const open = emptyBits(costs.length);
    for (const s of membersOf(allowed)) if (bound + reduced[s]! <= gap()) addBit(open, s);
    const candidates = rarest(uncovered, open);
    candidates.sort((a, b) => reduced[a]! - reduced[b]! || a - b);
    for (const s of candidates) {
      removeBit(open, s); // Later branches are the covers without s.
      if (cost + costs[s]! > bestCost - step) continue;
      const rest = uncovered.slice();
      subtract(rest, uncovered, family.covers[s]!);
      chosen.push(s);
      branch(rest, open, cost + costs[s]!, price);
      chosen.pop();
    }
  }

  /** The open sets that cover the element with the fewest of them; none when that element can no longer be covered. */
  function rarest(uncovered: Bitset, open: Bitset): number[] {
    let fewest = Infinity;
    let element = 0;
    for (const e of membersOf(uncovered)) {
      const count = countCommon(family.coveredBy[e]!, open);
      if (count < fewest) [fewest, element] = [count, e];
    }
    return priced.coveredBy[element]!.filter((s) => hasBit(open, s));
  }

  branch(elements, columns, 0);
  return best;
}

/** A first cover: again and again the set of least cost per newly covered element (Chvátal 1979). */
function greedy({ covers }: Family, elements: Bitset, columns: Bitset, costs: readonly number[]): number[] {
  const uncovered = elements.slice();
  const members: number[] = [];
  while (!isEmpty(uncovered)) {
    let pick = -1;
    let least = Infinity;
    for (const s of membersOf(columns)) {
      const gained = countCommon(covers[s]!, uncovered);
      if (gained > 0 && costs[s]! / gained < least) [least, pick] = [costs[s]! / gained, s];
    }
    members.push(pick);
    subtract(uncovered, uncovered, covers[pick]!);
  }
  return members;
}

/** Drops members that the others make unnecessary, the dearest first. */
function withoutSpares(
  { covers }: Family,
  elements: Bitset,
  costs: readonly number[],
  members: readonly number[],
): number[] {
  let kept = [...members];
  for (const s of [...members].sort((a, b) => costs[b]! - costs[a]! || b - a)) {
    const others = kept.filter((m) => m !== s);
    const left = elements.slice();
    for (const m of others) subtract(left, left, covers[m]!);
    if (isEmpty(left)) kept = others;
  }
  return kept;
}

function total(members: readonly number[], costs: readonly number[]): number {
  return members.reduce((sum, s) => sum + costs[s]!, 0);
}
