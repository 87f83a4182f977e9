/** A family of sets seen both ways: what each set covers, and which sets cover each element. */
import { addBit, emptyBits, type Bitset } from './bitset.js';

export interface Family {
  /** Per set, the elements it covers, as bits over the universe. */
  readonly covers: readonly Bitset[];
  /** Per element, the sets that cover it, as bits over the sets. */
  readonly coveredBy: readonly Bitset[];
}

/**
 * Reads a family; an element written twice in one set counts once.
 *
 * @param universeSize elements are 0 … universeSize − 1
 * @throws RangeError when an element is outside the universe: a bug of the caller, not bad input of the user
 */
export function familyOf(universeSize: number, sets: readonly (readonly number[])[]): Family {
  const covers = sets.map(() => emptyBits(universeSize));
  const coveredBy = Array.from({ length: universeSize }, () => emptyBits(sets.length));
  for (const [s, set] of sets.entries()) {
    for (const element of set) {
      if (!Number.isInteger(element) || element < 0 || element >= universeSize) {
        throw new RangeError(`Set ${s} holds ${element}, which is not in 0 … ${universeSize - 1}.`);
      }
      addBit(covers[s]!, element);
      addBit(coveredBy[element]!, s);
    }
  }
  return { covers, coveredBy };
}

/** Groups of members first by size, then by the members themselves, so that results never depend on search order. */
export function bySizeThenMembers(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length) return a.length - b.length;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return 0;
}
