/**
 * Fixed-size sets of small whole numbers, 32 to a word: the findings a fault explains, the faults that explain a finding.
 * Cover search asks "what is left?" millions of times, and a few word operations answer it.
 */

/** Bit `i` of the set is bit `i % 32` of word `i / 32`. Every operation expects sets made for the same size. */
export type Bitset = Uint32Array;

/** The empty set over 0 … size − 1. */
export function emptyBits(size: number): Bitset {
  return new Uint32Array((size + 31) >>> 5);
}

/** The set of all of 0 … size − 1. */
export function fullBits(size: number): Bitset {
  const bits = emptyBits(size);
  for (let i = 0; i < size; i++) addBit(bits, i);
  return bits;
}

export function addBit(bits: Bitset, i: number): void {
  bits[i >>> 5]! |= 1 << (i & 31);
}

export function removeBit(bits: Bitset, i: number): void {
  bits[i >>> 5]! &= ~(1 << (i & 31));
}

export function hasBit(bits: Bitset, i: number): boolean {
  return (bits[i >>> 5]! & (1 << (i & 31))) !== 0;
}

export function isEmpty(bits: Bitset): boolean {
  for (const word of bits) if (word !== 0) return false;
  return true;
}

/** Writes a ∩ b into `into` (which may be a or b); returns true while anything is left. */
export function intersect(into: Bitset, a: Bitset, b: Bitset): boolean {
  let any = 0;
  for (let w = 0; w < into.length; w++) any |= into[w] = a[w]! & b[w]!;
  return any !== 0;
}

/** Writes a \ b into `into` (which may be a or b). */
export function subtract(into: Bitset, a: Bitset, b: Bitset): void {
  for (let w = 0; w < into.length; w++) into[w] = a[w]! & ~b[w]!;
}

export function isSubset(a: Bitset, b: Bitset): boolean {
  for (let w = 0; w < a.length; w++) if ((a[w]! & ~b[w]!) !== 0) return false;
  return true;
}

/** Number of members. */
export function countBits(bits: Bitset): number {
  let count = 0;
  for (const word of bits) count += countWord(word);
  return count;
}

/** Number of members of a ∩ b. */
export function countCommon(a: Bitset, b: Bitset): number {
  let count = 0;
  for (let w = 0; w < a.length; w++) count += countWord(a[w]! & b[w]!);
  return count;
}

/** Members in rising order. */
export function membersOf(bits: Bitset): number[] {
  const members: number[] = [];
  for (let w = 0; w < bits.length; w++) {
    for (let word = bits[w]!; word !== 0; word &= word - 1) {
      members.push((w << 5) + 31 - Math.clz32(word & -word));
    }
  }
  return members;
}

/** Set bits of a 32-bit word, summed in parallel by halves. */
function countWord(word: number): number {
  word -= (word >>> 1) & 0x55555555;
  word = (word & 0x33333333) + ((word >>> 2) & 0x33333333);
  return Math.imul((word + (word >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
