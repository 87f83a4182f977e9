import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { irredundantCovers, minimalHittingSets } from '../../../src/diagnosis/covers/covers.js';
import { bruteIrredundantCovers, bySize } from './brute-force.js';
import { randomFamily, seeded, whole } from './families.js';

describe('irredundant covers', () => {
  it('when 500 random families are searched then the covers equal those found by trying every subset', () => {
    for (let number = 0; number < 500; number++) {
      const random = seeded(number);
      const universe = whole(random, 0, 8);
      const sets = randomFamily(random, universe, whole(random, 0, 10), 0.15 + 0.5 * random());
      const maxSize = whole(random, 0, 5);
      const found = irredundantCovers(universe, sets, maxSize);
      expect(found.complete).toBe(true);
      expect([...found.covers].sort(bySize), `family ${number}`).toEqual(
        bruteIrredundantCovers(universe, sets, maxSize),
      );
    }
  });

  it('when a family is wider than a word then the covers are the minimal hitting sets of its other side', () => {
    const random = seeded(77);
    for (let number = 0; number < 30; number++) {
      const universe = whole(random, 30, 70);
      const sets = randomFamily(random, universe, 45, 0.3);
      const coveredBy = Array.from({ length: universe }, (_, e) =>
        sets.flatMap((set, s) => (set.includes(e) ? [s] : [])),
      );
      expect([...irredundantCovers(universe, sets, 5).covers].sort(bySize)).toEqual(
        minimalHittingSets(coveredBy, 5),
      );
    }
  });

  it('when nothing is abnormal then only the empty cover remains', () => {
    expect(irredundantCovers(0, [[], []], 3)).toEqual({ covers: [[]], complete: true });
  });

  it('when a finding is in no set then there is no cover', () => {
    expect(irredundantCovers(2, [[0]], 3)).toEqual({ covers: [], complete: true });
  });

  it('when two sets are equal then both are reported', () => {
    expect(irredundantCovers(1, [[0], [0]], 2).covers).toEqual([[0], [1]]);
  });

  it('when the limit is reached then the smaller covers are kept and the answer says that there are more', () => {
    const sets = [[0, 1], [0], [1], [0], [1]];
    expect(irredundantCovers(2, sets, 2, 3)).toEqual({
      covers: [[0], [1, 2], [1, 4]],
      complete: false,
    });
    expect(irredundantCovers(2, sets, 2, 5).complete).toBe(true);
  });

  it('when weights are given then heavier covers come first within a size', () => {
    const sets = [[0, 1], [0], [1], [0], [0, 1]];
    const { covers } = irredundantCovers(2, sets, 2, Infinity, [1, 1, 5, 2, 3]);
    expect(covers).toEqual([[4], [0], [2, 3], [1, 2]]);
  });

  it('when an element is outside the universe or a weight is not above zero then it is refused', () => {
    expect(() => irredundantCovers(2, [[0, 2]], 1)).toThrow('Set 0 holds 2, which is not in 0 … 1.');
    expect(() => irredundantCovers(1, [[0]], 1, 9, [0])).toThrow('Set 0 has the weight 0.');
  });

  it('when elements and sets are renumbered then the covers are the same ones renumbered', () => {
    const family = fc.integer({ min: 1, max: 7 }).chain((universe) =>
      fc.record({
        universe: fc.constant(universe),
        sets: fc.array(fc.uniqueArray(fc.nat({ max: universe - 1 })), { maxLength: 9 }),
        key: fc.array(fc.nat(), { minLength: 20, maxLength: 20 }),
      }),
    );
    fc.assert(
      fc.property(family, ({ universe, sets, key }) => {
        const setAt = order(sets.length, key);
        const elementAt = order(universe, [...key].reverse());
        const renamed = setAt.map((s) => sets[s]!.map((e) => elementAt.indexOf(e)));
        const back = irredundantCovers(universe, renamed, 4).covers.map((cover) =>
          cover.map((s) => setAt[s]!).sort((a, b) => a - b),
        );
        expect(back.sort(bySize)).toEqual([...irredundantCovers(universe, sets, 4).covers].sort(bySize));
      }),
      { seed: 20, numRuns: 200 },
    );
  });
});

/** A permutation of 0 … count − 1 drawn from the key. */
function order(count: number, key: readonly number[]): number[] {
  return Array.from({ length: count }, (_, i) => i).sort((a, b) => key[a]! - key[b]! || a - b);
}
