/**
 * All ways in which a few faults together explain every abnormal finding, with no fault that is not needed.
 * The findings are the universe, each fault covers those it explains alone (Reggia, Nau and Wang 1983: a set covering
 * model of diagnosis; irredundant cover: Peng and Reggia 1986). Covers only say where to look first: real faults can
 * mask each other, so a pair that covers nothing by this count may still be the truth.
 */
import {
  countBits,
  countCommon,
  fullBits,
  intersect,
  isEmpty,
  isSubset,
  membersOf,
  removeBit,
  subtract,
  type Bitset,
} from './bitset.js';
import { bySizeThenMembers, familyOf, type Family } from './family.js';

export interface IrredundantCovers {
  /** Each cover as rising indices of sets; smaller covers first, then the heavier, then by index. */
  readonly covers: readonly (readonly number[])[];
  /** False when the limit stopped the search: there are more covers of at most this size. */
  readonly complete: boolean;
}

/**
 * Every irredundant cover of at most `maxSize` sets.
 *
 * @param universeSize elements are 0 … universeSize − 1
 * @param sets         what each set covers; equal sets are all reported
 * @param maxSize      largest cover of interest; 0 finds only the empty cover of an empty universe
 * @param limit        stop after this many covers. Sizes are searched one after the other, so a smaller cover is never
 *                     lost to a larger one; inside the last size the sets of greater weight are tried first
 * @param weights      prior odds per set, > 0; a cover weighs their product. Left out: all equal
 * @throws RangeError  on an element outside the universe or an unusable weight
 */
export function irredundantCovers(
  universeSize: number,
  sets: readonly (readonly number[])[],
  maxSize: number,
  limit: number = Infinity,
  weights: readonly number[] = sets.map(() => 1),
): IrredundantCovers {
  const family = familyOf(universeSize, sets);
  for (const s of sets.keys()) {
    if (!(weights[s]! > 0 && weights[s]! < Infinity))
      throw new RangeError(`Set ${s} has the weight ${weights[s]}.`);
  }
  const covers: number[][] = [];
  for (let size = 0; size <= Math.min(maxSize, universeSize, sets.length); size++) {
    const found = coversOfSize(family, universeSize, size, limit - covers.length, weights);
    const ofSize = found.slice(0, Math.max(0, limit - covers.length));
    covers.push(...heaviestFirst(ofSize, weights));
    if (found.length > ofSize.length) return { covers, complete: false };
  }
  return { covers, complete: true };
}

/** Up to limit + 1 irredundant covers of exactly `size` sets (one more than asked for tells that there are more). */
function coversOfSize(
  { covers, coveredBy }: Family,
  universeSize: number,
  size: number,
  limit: number,
  weights: readonly number[],
): number[][] {
  const found: number[][] = [];
  const chosen: number[] = [];
  /** Per chosen set, the elements that it alone covers so far. */
  const alone: Bitset[] = [];

  /** `allowed`: sets not yet tried in an earlier branch, so that each cover is met once. */
  function extend(uncovered: Bitset, allowed: Bitset): void {
    if (found.length > limit) return;
    const left = size - chosen.length;
    if (left === 0) {
      if (isEmpty(uncovered)) found.push([...chosen].sort((a, b) => a - b));
      return;
    }
    const elements = membersOf(uncovered);
    if (elements.length === 0) return; // Covered with sets to spare: any further set would not be needed.
    if (left === 1) return finish(elements, allowed, uncovered);

    const most = largestCover(uncovered, allowed);
    if (elements.length > left * most) return;
    const candidates = rarest(elements, allowed);
    const rest = allowed.slice();
    for (const s of candidates.sort((a, b) => weights[b]! - weights[a]! || a - b)) {
      removeBit(rest, s);
      const remaining = uncovered.slice();
      subtract(remaining, uncovered, covers[s]!);
      if (countBits(remaining) <= (left - 1) * most) add(s, remaining, rest, uncovered);
    }
  }

  /** The last set must cover all that is left: the sets common to all those elements. */
  function finish(elements: readonly number[], allowed: Bitset, uncovered: Bitset): void {
    const common = allowed.slice();
    for (const element of elements) if (!intersect(common, common, coveredBy[element]!)) return;
    const none = uncovered.slice().fill(0);
    for (const s of membersOf(common)) add(s, none, common, uncovered);
  }

  function add(s: number, remaining: Bitset, allowed: Bitset, uncovered: Bitset): void {
    // A chosen set that keeps no element of its own is not needed, and never will be.
    if (alone.some((own) => isSubset(own, covers[s]!))) return;
    const before = alone.slice();
    for (const [i, own] of before.entries()) {
      alone[i] = own.slice();
      subtract(alone[i], own, covers[s]!);
    }
    const own = uncovered.slice();
    intersect(own, uncovered, covers[s]!);
    chosen.push(s);
    alone.push(own);
    extend(remaining, allowed);
    chosen.pop();
    alone.length = 0;
    alone.push(...before);
  }

  function largestCover(uncovered: Bitset, allowed: Bitset): number {
    let most = 0;
    for (const s of membersOf(allowed)) most = Math.max(most, countCommon(covers[s]!, uncovered));
    return most;
  }

  /** The sets that may cover the element which fewest may cover. */
  function rarest(elements: readonly number[], allowed: Bitset): number[] {
    let fewest = Infinity;
    let which = elements[0]!;
    for (const element of elements) {
      const count = countCommon(coveredBy[element]!, allowed);
      if (count < fewest) [fewest, which] = [count, element];
    }
    const candidates = allowed.slice();
    intersect(candidates, allowed, coveredBy[which]!);
    return membersOf(candidates);
  }

  extend(fullBits(universeSize), fullBits(covers.length));
  return found;
}

/** By the product of weights, falling; products that differ only by rounding count as equal, then by index. */
function heaviestFirst(covers: readonly number[][], weights: readonly number[]): number[][] {
  const logWeight = (cover: number[]): number =>
    Math.round(1e9 * cover.reduce((total, s) => total + Math.log(weights[s]!), 0));
  return covers
    .map((cover) => ({ cover, weight: logWeight(cover) }))
    .sort((a, b) => b.weight - a.weight || bySizeThenMembers(a.cover, b.cover))
    .map(({ cover }) => cover);
}
