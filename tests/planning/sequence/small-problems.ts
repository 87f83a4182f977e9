/** Small problems of any kind for properties: ties, free steps, tests that tell nothing, readings that overlap, shared places. */
import fc from 'fast-check';
import type { Problem } from '../../../src/planning/sequence/problem.js';

const minutes = fc.integer({ min: 0, max: 12 }).map((halves) => halves / 2);

/** One class for certain, mostly; else two with a chance each. */
const shows = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.integer({ min: 0, max: 2 }).map((outcome) => [[outcome, 1]] as [number, number][]),
  },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.constantFrom(0.1, 0.25, 0.5), fc.integer({ min: 0, max: 2 }))
      .map(([chance, outcome]): [number, number][] => [
        [outcome, chance],
        [(outcome + 1) % 3, 1 - chance],
      ]),
  },
);

export function smallProblems(most: { possibilities: number; tests: number }): fc.Arbitrary<Problem> {
  return fc
    .record({
      places: fc.array(minutes, { minLength: 1, maxLength: 2 }),
      repairCount: fc.integer({ min: 2, max: 4 }),
      count: fc.integer({ min: 2, max: most.possibilities }),
    })
    .chain(({ places, repairCount, count }) => {
      const place = fc.integer({ min: 0, max: places.length - 1 });
      const many = { minLength: count, maxLength: count };
      return fc.record({
        possibilities: fc.array(
          fc.record({
            weight: fc.constantFrom(1, 2, 5, 30, 100),
            repair: fc.integer({ min: 0, max: repairCount - 1 }),
          }),
          many,
        ),
        repairs: fc.array(fc.record({ minutes, place }, { requiredKeys: ['minutes'] }), {
          minLength: repairCount,
          maxLength: repairCount,
        }),
        tests: fc.array(
          fc.record({
            minutes,
            places: fc.uniqueArray(place, { maxLength: 1 }),
            shows: fc.array(shows, many),
          }),
          { maxLength: most.tests },
        ),
        places: fc.constant(places),
      });
    }) as fc.Arbitrary<Problem>;
}
