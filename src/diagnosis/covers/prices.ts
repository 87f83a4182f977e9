/**
 * A lower bound on what it costs to cover what is left: a price per element, and the sets charged at cost less prices.
 * For any prices ≥ 0, (sum of prices) + (sum of the negative reduced costs) is at most the cost of any cover: the
 * Lagrangian bound. The prices are improved by subgradient steps: dearer where nobody covers, cheaper where many do
 * (Held and Karp 1971; for set covering Beasley 1987, "An algorithm for set covering problem", from memory).
 * A single ascent over the elements was tried instead: each node is cheaper, but a hundred times more nodes are needed
 * when all costs are equal.
 */
import { membersOf, type Bitset } from './bitset.js';

export interface Prices {
  /** No cover of the uncovered elements by the allowed sets costs less. */
  readonly bound: number;
  /** Per element; 0 for those already covered. */
  readonly price: Float64Array;
  /** Per allowed set, its cost less the prices of what it covers: a cover that uses it costs at least bound + this. */
  readonly reduced: Float64Array;
}

export interface PricedFamily {
  /** Per set, the elements it covers that matter. */
  readonly covers: readonly (readonly number[])[];
  /** Per element, the sets that cover it. */
  readonly coveredBy: readonly (readonly number[])[];
  readonly costs: readonly number[];
}

const FIRST_STEPS = 200;
const LATER_STEPS = 6;
/** Steps without progress before the step is halved. */
const PATIENCE = 5;

/**
 * @param uncovered elements still to be covered, each by at least one allowed set
 * @param allowed   sets that may be used
 * @param target    stop once the bound is above this: the branch is lost anyway
 * @param start     prices of the enclosing branch; left out, the search starts afresh and takes longer
 */
export function prices(
  family: PricedFamily,
  uncovered: Bitset,
  allowed: Bitset,
  target: number,
  start?: Float64Array,
): Prices {
  const { covers, coveredBy, costs } = family;
  const elements = membersOf(uncovered);
  const sets = membersOf(allowed);
  const price = new Float64Array(coveredBy.length);
  for (const e of elements) price[e] = start === undefined ? fairShare(family, e) : start[e]!;

  const best = { bound: -Infinity, price: price.slice(), reduced: Float64Array.from(costs) };
  const reduced = new Float64Array(costs.length);
  const covered = new Int32Array(coveredBy.length);
  const steps = start === undefined ? FIRST_STEPS : LATER_STEPS;
  let length = start === undefined ? 1 : 0.5;
  let idle = 0;
  for (let step = 0; step <= steps; step++) {
    const bound = charge();
    if (bound > best.bound) {
      best.bound = bound;
      best.price.set(price);
      best.reduced.set(reduced);
      idle = 0;
      if (bound > target) break;
    } else if (++idle >= PATIENCE) {
      length /= 2;
      idle = 0;
      price.set(best.price);
      continue; // The next charge refills `covered` for these prices.
    }
    let norm = 0;
    for (const e of elements) norm += (1 - covered[e]!) ** 2;
    if (norm === 0) break; // Every element is covered once by sets that pay for themselves: the bound is the answer.
    const stride = (length * Math.max(target - bound, 1e-3 * Math.abs(target))) / norm;
    for (const e of elements) price[e] = Math.max(0, price[e]! + stride * (1 - covered[e]!));
  }
  return best;

  /** Works out reduced costs at the present prices, and how often the sets worth taking cover each element. */
  function charge(): number {
    let bound = 0;
    for (const s of sets) reduced[s] = costs[s]!;
    for (const e of elements) {
      covered[e] = 0;
      bound += price[e]!;
      for (const s of coveredBy[e]!) reduced[s]! -= price[e]!;
    }
    for (const s of sets) {
      if (reduced[s]! >= 0) continue;
      bound += reduced[s]!;
      for (const e of covers[s]!) covered[e]!++;
    }
    return bound;
  }
}

/** The least that one element can cost: a set's cost shared evenly over all it covers. */
function fairShare({ covers, coveredBy, costs }: PricedFamily, element: number): number {
  return Math.min(...coveredBy[element]!.map((s) => costs[s]! / covers[s]!.length));
}
