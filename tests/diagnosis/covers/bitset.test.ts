import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as bits from '../../../src/diagnosis/covers/bitset.js';

const SIZE = 100;
const members = fc.uniqueArray(fc.nat({ max: SIZE - 1 }));

function made(from: readonly number[]): bits.Bitset {
  const set = bits.emptyBits(SIZE);
  for (const i of from) bits.addBit(set, i);
  return set;
}

describe('bitset', () => {
  it('when two sets are combined then the answers equal those of ordinary sets', () => {
    fc.assert(
      fc.property(members, members, (a, b) => {
        const [x, y] = [made(a), made(b)];
        const rising = (list: readonly number[]): number[] => [...list].sort((p, q) => p - q);
        const both = a.filter((i) => b.includes(i));
        const into = bits.emptyBits(SIZE);
        expect(bits.membersOf(x)).toEqual(rising(a));
        expect(bits.countBits(x)).toBe(a.length);
        expect(bits.countCommon(x, y)).toBe(both.length);
        expect(bits.isSubset(x, y)).toBe(both.length === a.length);
        expect(bits.intersect(into, x, y)).toBe(both.length > 0);
        expect(bits.membersOf(into)).toEqual(rising(both));
        bits.subtract(into, x, y);
        expect(bits.membersOf(into)).toEqual(rising(a.filter((i) => !b.includes(i))));
        expect(bits.isEmpty(into)).toBe(both.length === a.length);
      }),
      { seed: 23, numRuns: 300 },
    );
  });

  it('when the last bit of a word is set and removed then its neighbours keep theirs', () => {
    const set = made([30, 31, 32]);
    expect(bits.hasBit(set, 31)).toBe(true);
    bits.removeBit(set, 31);
    expect(bits.membersOf(set)).toEqual([30, 32]);
  });

  it('when a full set is made then it holds exactly its size', () => {
    for (const size of [0, 1, 31, 32, 33, 64]) expect(bits.countBits(bits.fullBits(size))).toBe(size);
  });
});
