/**
 * Minimal hitting sets: every smallest-by-inclusion choice that takes at least one member of each set. Conflicts in,
 * diagnoses out (Reiter 1987). Depth-first MMCS scheme of Murakami and Uno, "Efficient algorithms for dualizing
 * large-scale hypergraphs", Discrete Applied Mathematics 170 (2014), written afresh from its description: each chosen
 * member keeps a list of the sets that only it hits, and a choice that empties such a list is dropped at once. Unlike a
 * hitting-set tree with pruning it does not depend on the order of the sets (Greiner, Smith and Wilkerson 1989).
 */
import { bySizeThenMembers } from './family.js';
import {
  addBit,
  emptyBits,
  fullBits,
  intersect,
  isEmpty,
  membersOf,
  removeBit,
  subtract,
  type Bitset,
} from './bitset.js';

/**
 * All minimal hitting sets of a family.
 *
 * @param sets    sets of whole numbers ≥ 0; an empty family is hit by the empty set, an empty set cannot be hit
 * @param maxSize report only hitting sets of at most this many members
 * @returns rising members each, smaller sets first. There can be exponentially many: bound them with `maxSize`
 */
export function minimalHittingSets(
  sets: readonly (readonly number[])[],
  maxSize: number = Infinity,
): readonly (readonly number[])[] {
  const members = [...new Set(sets.flat())].sort((a, b) => a - b);
  const place = new Map(members.map((member, i) => [member, i]));
  const inSet = sets.map(() => emptyBits(members.length));
  const hits = members.map(() => emptyBits(sets.length));
  for (const [s, set] of sets.entries()) {
    for (const member of set) {
      addBit(inSet[s]!, place.get(member)!);
      addBit(hits[place.get(member)!]!, s);
    }
  }

  const found: number[][] = [];
  const chosen: number[] = [];
  /** Per chosen member, the sets that it alone hits. */
  let alone: Bitset[] = [];

  /** Candidates are changed while searching and handed back as they came. */
  function extend(unhit: Bitset, candidates: Bitset): void {
    if (isEmpty(unhit)) {
      found.push(chosen.map((i) => members[i]!).sort((a, b) => a - b));
      return;
    }
    if (chosen.length >= maxSize) return;
    const branch = fewestCandidates(unhit, candidates);
    const rest = candidates.slice();
    for (const i of branch) removeBit(rest, i);
    for (const i of branch) {
      const before = alone;
      const after = before.map((own) => own.slice());
      let needed = true;
      for (const [k, own] of after.entries()) {
        subtract(own, before[k]!, hits[i]!);
        needed &&= !isEmpty(own);
      }
      if (needed) {
        const own = unhit.slice();
        const still = unhit.slice();
        intersect(own, unhit, hits[i]!);
        subtract(still, unhit, hits[i]!);
        chosen.push(i);
        alone = [...after, own];
        extend(still, rest);
        chosen.pop();
        alone = before;
      }
      // Later branches may use this member, earlier ones could not use theirs: each hitting set is met once.
      // One that empties a list here empties it below as well, so it stays out.
      if (needed) addBit(rest, i);
    }
  }

  function fewestCandidates(unhit: Bitset, candidates: Bitset): number[] {
    let best: number[] | undefined;
    for (const s of membersOf(unhit)) {
      const both = candidates.slice();
      intersect(both, candidates, inSet[s]!);
      const list = membersOf(both);
      if (best === undefined || list.length < best.length) best = list;
    }
    return best!;
  }

  extend(fullBits(sets.length), fullBits(members.length));
  return found.sort(bySizeThenMembers);
}
