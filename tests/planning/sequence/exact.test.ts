import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Exact } from '../../../src/planning/sequence/exact.js';
import { bruteForce } from './brute-force.js';
import { publishedProblem } from './published-problem.js';
import { smallProblems } from './small-problems.js';
import { exactMinutes, greedyMinutes, started } from './solved.js';
import { subsetOptimum, unfold } from './subset-solver.js';
import { vehicleProblem } from './vehicle-problems.js';
import { weightsOptimum } from './weights-solver.js';

describe('the cheapest road', () => {
  test('when the published example has unit costs then it takes 2.18', () => {
    expect(exactMinutes(publishedProblem([1, 1, 1, 1, 1]))).toBeCloseTo(2.18, 10);
  });

  test('when two of its tests cost five then it takes 6.18', () => {
    expect(exactMinutes(publishedProblem([1, 1, 5, 5, 1]))).toBeCloseTo(6.18, 10);
  });

  test('when the published example is planned one step at a time then it takes longer, 2.86', () => {
    // Greedy begins with t1; computed again by a separate program.
    expect(greedyMinutes(publishedProblem([1, 1, 1, 1, 1]))).toBeCloseTo(2.86, 10);
  });

  test('when a problem is small then brute force finds no shorter and no longer road', () => {
    fc.assert(
      fc.property(smallProblems({ possibilities: 5, tests: 3 }), (problem) => {
        expect(exactMinutes(problem)).toBeCloseTo(bruteForce(problem) / total(problem), 7);
      }),
      { numRuns: 400, seed: 4 },
    );
  });

  test('when readings overlap then unfolding every reading into a possibility of its own gives the same', () => {
    let compared = 0;
    fc.assert(
      fc.property(smallProblems({ possibilities: 6, tests: 5 }), (problem) => {
        if (problem.possibilities.flatMap((_, i) => unfold(problem, i)).length > 25) return;
        compared++;
        expect(exactMinutes(problem)).toBeCloseTo(subsetOptimum(problem).minutes, 7);
      }),
      { numRuns: 200, seed: 5 },
    );
    expect(compared).toBeGreaterThan(100);
  });

  test.each([10, 14, 17, 20])(
    'when a vehicle has %i repairs then it is what the solver over sets finds',
    (groups) => {
      for (let seed = 1; seed <= 12; seed++) {
        const problem = vehicleProblem(100 * groups + seed, { groups, tests: 24, places: 4, contacts: 0 });
        expect(exactMinutes(problem)).toBeCloseTo(subsetOptimum(problem).minutes, 7);
      }
    },
  );

  test.each([8, 10])(
    'when a vehicle of %i repairs has bad contacts that may read well then so too by weights',
    (groups) => {
      let compared = 0;
      for (let seed = 1; seed <= 6; seed++) {
        const problem = vehicleProblem(100 * groups + seed, { groups, tests: 14, places: 3, contacts: 0.25 });
        const optimum = weightsOptimum(problem, 20_000);
        if (optimum === undefined) continue;
        compared++;
        expect(exactMinutes(problem)).toBeCloseTo(optimum, 7);
      }
      expect(compared).toBeGreaterThan(3);
    },
  );

  test('when a slack is allowed then the road found is longer by no more than that', () => {
    for (let seed = 1; seed <= 12; seed++) {
      const problem = vehicleProblem(700 + seed, { groups: 14, tests: 24, places: 4, contacts: 0 });
      const { prepared, start } = started(problem);
      const optimum = subsetOptimum(problem).minutes;
      const [found] = new Exact(prepared, 100_000, 0.2).best(start, 1)!;
      expect(found!.minutes).toBeGreaterThan(optimum - 1e-7);
      expect(found!.minutes).toBeLessThanOrEqual(optimum + 0.2 + 1e-7);
    }
  });

  test('when the states run over the limit then it gives up and says so', () => {
    const problem = vehicleProblem(1, { groups: 20, tests: 30, places: 5, contacts: 0.3 });
    expect(exactMinutes(problem, 50)).toBeUndefined();
  });
});

function total({ possibilities }: { possibilities: readonly { weight: number }[] }): number {
  return possibilities.reduce((sum, { weight }) => sum + weight, 0);
}
