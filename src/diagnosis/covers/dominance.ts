/** What a least-cost cover never needs to look at: sets that another beats, and elements that come covered for free. */
import { countBits, fullBits, isSubset, removeBit, type Bitset } from './bitset.js';
import type { Family } from './family.js';

/** The sets and elements that are left; a least-cost cover of these is one of the whole family. */
export function undominated(
  family: Family,
  costs: readonly number[],
): { readonly sets: Bitset; readonly elements: Bitset } {
  return { sets: undominatedSets(family, costs), elements: neededElements(family) };
}

/** A set goes when another covers at least as much for at most its cost; of equal twins the first stays. */
function undominatedSets({ covers }: Family, costs: readonly number[]): Bitset {
  const sets = fullBits(covers.length);
  const sizes = covers.map(countBits);
  for (let s = 0; s < covers.length; s++) {
    for (let t = 0; t < covers.length; t++) {
      if (s === t || costs[t]! > costs[s]! || sizes[t]! < sizes[s]! || !isSubset(covers[s]!, covers[t]!))
        continue;
      const twins = costs[t] === costs[s] && sizes[t] === sizes[s];
      if (twins && t > s) continue;
      removeBit(sets, s);
      break;
    }
  }
  return sets;
}

/** An element goes when whatever covers some other element covers it as well; of equal twins the first stays. */
function neededElements({ coveredBy }: Family): Bitset {
  const elements = fullBits(coveredBy.length);
  for (let e = 0; e < coveredBy.length; e++) {
    for (let f = 0; f < coveredBy.length; f++) {
      if (e === f || !isSubset(coveredBy[f]!, coveredBy[e]!)) continue;
      if (f > e && isSubset(coveredBy[e]!, coveredBy[f]!)) continue;
      removeBit(elements, e);
      break;
    }
  }
  return elements;
}
