import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Bound } from '../../../src/planning/sequence/bound.js';
import { bruteForce } from './brute-force.js';
import { smallProblems } from './small-problems.js';
import { exactMinutes, started } from './solved.js';
import { vehicleProblem } from './vehicle-problems.js';

describe('the bound', () => {
  test('when a problem is small then it is never above what brute force finds', () => {
    fc.assert(
      fc.property(smallProblems({ possibilities: 5, tests: 3 }), (problem) => {
        const { prepared, start } = started(problem);
        const bound = new Bound(prepared);
        const weight = problem.possibilities.reduce((sum, possibility) => sum + possibility.weight, 0);
        const optimum = bruteForce(problem) / weight + 1e-9;
        expect(bound.atLeast(start, bound.pricesOf(start))).toBeLessThanOrEqual(optimum);
        expect(bound.oneStep(start)).toBeLessThanOrEqual(optimum);
      }),
      { numRuns: 400, seed: 6 },
    );
  });

  test('when a vehicle has twelve repairs then it is worth at least two fifths of the optimum', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const problem = vehicleProblem(seed, { groups: 12, tests: 20, places: 3, contacts: 0 });
      const { prepared, start } = started(problem);
      const bound = new Bound(prepared);
      const share = bound.atLeast(start, bound.pricesOf(start)) / exactMinutes(problem)!;
      expect(share).toBeGreaterThan(0.4);
      expect(share).toBeLessThanOrEqual(1 + 1e-9);
    }
  });
});
