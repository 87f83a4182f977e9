import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plan } from '../../../src/planning/sequence/plan.js';
import { followed } from './followed.js';
import { smallProblems } from './small-problems.js';
import { exactMinutes, greedyMinutes, rollOutMinutes } from './solved.js';
import { subsetOptimum } from './subset-solver.js';
import { atStart, vehicleProblem } from './vehicle-problems.js';

const ROUNDING = 1e-9;
const ROLL_OUT = { exactStates: 0, rollOutStates: 1500 };

describe('roll-out', () => {
  test('when any small problem is planned then exact <= roll-out <= one step at a time', () => {
    fc.assert(
      fc.property(smallProblems({ possibilities: 6, tests: 5 }), (problem) => {
        const [exact, rolled, greedy] = [
          exactMinutes(problem)!,
          rollOutMinutes(problem),
          greedyMinutes(problem),
        ];
        expect(exact).toBeLessThanOrEqual(rolled + ROUNDING);
        expect(rolled).toBeLessThanOrEqual(greedy + ROUNDING);
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  test('when its first step is taken and planned on then it takes no longer than it said', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const problem = vehicleProblem(seed, { groups: 12, tests: 20, places: 4, contacts: 0.2 });
      const said = plan(problem, atStart(problem), ROLL_OUT).expectedMinutes;
      const took = followed(problem, atStart(problem), (known) => plan(problem, known, ROLL_OUT).step);
      expect(took).toBeLessThanOrEqual(said * (1 + 1e-6));
    }
  });

  test('when a vehicle has sixteen repairs then the road followed is at most a tenth longer than the optimum', () => {
    const ratios = Array.from({ length: 12 }, (_, seed) => {
      const problem = vehicleProblem(500 + seed, { groups: 16, tests: 24, places: 4, contacts: 0 });
      const took = followed(problem, atStart(problem), (known) => plan(problem, known, ROLL_OUT).step);
      return took / subsetOptimum(problem).minutes;
    });
    expect(Math.min(...ratios)).toBeGreaterThan(1 - 1e-6);
    expect(Math.max(...ratios)).toBeLessThanOrEqual(1.1);
    expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeLessThanOrEqual(1.03);
  });

  test('when the same question is asked twice then the answer is the same', () => {
    const problem = vehicleProblem(3, { groups: 14, tests: 24, places: 4, contacts: 0.3 });
    expect(plan(problem, atStart(problem), ROLL_OUT)).toEqual(plan(problem, atStart(problem), ROLL_OUT));
  });
});
