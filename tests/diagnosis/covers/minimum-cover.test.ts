import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Highs } from 'highs';
import { irredundantCovers, minimumCover } from '../../../src/diagnosis/covers/covers.js';
import { bruteMinimumCost, isCover } from './brute-force.js';
import { coverProblem, randomFamily, seeded, whole } from './families.js';
import { highsCost, startHighs } from './highs-cover.js';

describe('minimum cover', () => {
  let highs: Highs;
  beforeAll(async () => {
    highs = await startHighs();
  });

  it('when 500 random families are searched then the cost equals the least of all subsets', () => {
    for (let number = 0; number < 500; number++) {
      const random = seeded(2000 + number);
      const universe = whole(random, 0, 9);
      const sets = randomFamily(random, universe, whole(random, 0, 11), 0.15 + 0.5 * random());
      const costs = sets.map(() => (number % 2 === 0 ? whole(random, 0, 9) : random()));
      const least = bruteMinimumCost(universe, sets, costs);
      const found = minimumCover(universe, sets, costs);
      if (least === undefined) expect(found, `family ${number}`).toBeUndefined();
      else {
        expect(found!.cost, `family ${number}`).toBeCloseTo(least, 9);
        expect(isCover(universe, sets, found!.members)).toBe(true);
      }
    }
  });

  // A sample; all 200 are in tests/oracle/covers.long.ts.
  it('when 25 problems of 40 elements and 200 sets are solved then the cost equals that of HiGHS', () => {
    for (let number = 0; number < 25; number++) {
      const { sets, costs } = coverProblem(number);
      const found = minimumCover(40, sets, costs)!;
      expect(isCover(40, sets, found.members), `problem ${number}`).toBe(true);
      expect(found.cost, `problem ${number}`).toBeCloseTo(highsCost(highs, 40, sets, costs), 6);
    }
  });

  it('when nothing is to be covered then the answer is free and empty', () => {
    expect(minimumCover(0, [[], []])).toEqual({ members: [], cost: 0 });
  });

  it('when an element is in no set then there is no cover', () => {
    expect(minimumCover(2, [[0], [0]])).toBeUndefined();
  });

  it('when free sets cover everything then the answer costs nothing and keeps none to spare', () => {
    expect(minimumCover(3, [[0, 1], [2], [0, 1, 2], [1]], [0, 0, 0.5, 0])).toEqual({
      members: [0, 1],
      cost: 0,
    });
  });

  it('when a cost is negative or missing then it is refused', () => {
    expect(() => minimumCover(1, [[0]], [-1])).toThrow('Set 0 has the cost -1.');
    expect(() => minimumCover(1, [[0], [0]], [1])).toThrow('Set 1 has the cost undefined.');
  });

  it('when all costs are equal then no irredundant cover is smaller, and the answer is one of them', () => {
    const family = fc
      .integer({ min: 1, max: 9 })
      .chain((universe) =>
        fc.tuple(
          fc.constant(universe),
          fc.array(fc.uniqueArray(fc.nat({ max: universe - 1 })), { minLength: 1, maxLength: 14 }),
        ),
      );
    fc.assert(
      fc.property(family, ([universe, sets]) => {
        const { covers } = irredundantCovers(universe, sets, universe);
        const found = minimumCover(universe, sets);
        expect(found?.cost).toBe(covers[0]?.length);
        if (found !== undefined) expect(covers).toContainEqual(found.members);
      }),
      { seed: 22, numRuns: 300 },
    );
  });
});
