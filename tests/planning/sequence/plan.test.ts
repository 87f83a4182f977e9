import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { afterWrongRepair, outcomesOf } from '../../../src/planning/sequence/knowledge.js';
import { plan } from '../../../src/planning/sequence/plan.js';
import type { Knowledge, Problem, Step } from '../../../src/planning/sequence/problem.js';
import { bruteForce } from './brute-force.js';
import { followed } from './followed.js';
import { smallProblems } from './small-problems.js';
import { atStart, vehicleProblem } from './vehicle-problems.js';

/** A fuse that is mostly to blame, and a pump behind a cover; one test tells them apart. */
function fuseOrPump(fuse: number, testMinutes: number): Problem {
  return {
    possibilities: [
      { weight: fuse, repair: 0 },
      { weight: 1 - fuse, repair: 1 },
    ],
    repairs: [{ minutes: 2 }, { minutes: 60, place: 0 }],
    tests: [{ minutes: testMinutes, places: [], shows: [[[0, 1]], [[1, 1]]] }],
    places: [10],
  };
}

describe('the next step', () => {
  test('when one repair is left then it is that one, and only its place is still to be opened', () => {
    const problem = fuseOrPump(0.5, 1);
    const found = plan(problem, { weights: [0, 1], open: new Set() });
    expect(found).toEqual({ step: { repair: 1 }, expectedMinutes: 10, mode: 'exact', runnersUp: [] });
  });

  test('when a try is likely to be right and short then it is tried before a longer test', () => {
    // Try: 0.1 x (2 + 10) = 1.2. Test first: 1.5 + 0.1 x 10 = 2.5.
    const found = plan(fuseOrPump(0.9, 1.5), { weights: [0.9, 0.1], open: new Set() });
    expect(found.step).toEqual({ repair: 0 });
    expect(found.expectedMinutes).toBeCloseTo(1.2, 10);
    expect(found.runnersUp[0]).toEqual({ step: { test: 0 }, expectedMinutes: expect.closeTo(2.5, 10) });
  });

  test('when the same try is as likely to be wrong then the test goes first', () => {
    // Try: 0.5 x (2 + 10) = 6. Test first: 0.5 + 0.5 x 10 = 5.5.
    const found = plan(fuseOrPump(0.5, 0.5), { weights: [0.5, 0.5], open: new Set() });
    expect(found.step).toEqual({ test: 0 });
    expect(found.expectedMinutes).toBeCloseTo(5.5, 10);
  });

  test('when the test is done already then it is not proposed again', () => {
    const problem = fuseOrPump(0.5, 0.5);
    const found = plan(problem, { weights: [0.5, 0.5], open: new Set(), done: new Set([0]) });
    expect([found, ...found.runnersUp].map(({ step }) => step)).toEqual([{ repair: 0 }, { repair: 1 }]);
  });

  test('when plans are followed then no step tells nothing, and the exact ones take what brute force takes', () => {
    fc.assert(
      fc.property(smallProblems({ possibilities: 5, tests: 3 }), (problem) => {
        const weight = problem.possibilities.reduce((sum, possibility) => sum + possibility.weight, 0);
        const took = followed(problem, atStart(problem), (known) => {
          const found = plan(problem, known);
          expect(found.mode).toBe('exact');
          for (const { step } of [found, ...found.runnersUp])
            expect(tellsSomething(problem, known, step)).toBe(true);
          return found.step;
        });
        expect(took).toBeGreaterThan(bruteForce(problem) / weight - 1e-6);
        // A hundredth of a minute at each of the steps on the way.
        expect(took).toBeLessThanOrEqual(bruteForce(problem) / weight + 0.08);
      }),
      { numRuns: 150, seed: 8 },
    );
  });

  test('when there are runners-up then none is shorter than the step proposed', () => {
    for (let seed = 1; seed <= 10; seed++) {
      const problem = vehicleProblem(seed, { groups: 12, tests: 20, places: 4, contacts: 0.2 });
      const { expectedMinutes, runnersUp } = plan(problem, atStart(problem));
      const all = [expectedMinutes, ...runnersUp.map((other) => other.expectedMinutes)];
      expect(all).toEqual([...all].sort((a, b) => a - b));
      expect(runnersUp).toHaveLength(2);
    }
  });

  test('when the exact answer would take too many states then it says that it is a roll-out', () => {
    const problem = vehicleProblem(1, { groups: 20, tests: 30, places: 5, contacts: 0.3 });
    expect(plan(problem, atStart(problem), { exactStates: 20, rollOutStates: 100 }).mode).toBe('roll-out');
  });

  test('when nothing is left or the weights are not those of the problem then it says so', () => {
    const problem = fuseOrPump(0.5, 1);
    expect(() => plan(problem, { weights: [0, 0], open: new Set() })).toThrow(/Nothing is left/);
    expect(() => plan(problem, { weights: [1], open: new Set() })).toThrow(
      /1 weights, the problem 2 possibilities/,
    );
  });
});

/** A test by which some possibility left would read otherwise than another; a repair that mends something left. */
function tellsSomething(
  { possibilities, tests }: Problem,
  { weights, done }: Knowledge,
  step: Step,
): boolean {
  const left = weights.flatMap((weight, i) => (weight > 0 ? [i] : []));
  if ('repair' in step) return left.some((i) => possibilities[i]!.repair === step.repair);
  const rows = left.map((i) => JSON.stringify([...tests[step.test]!.shows[i]!].sort(([a], [b]) => a - b)));
  return !done?.has(step.test) && new Set(rows).size > 1;
}

describe('knowledge on the way', () => {
  test('when a test has several outcomes then their chances add up to 1 and its place stays open', () => {
    fc.assert(
      fc.property(smallProblems({ possibilities: 6, tests: 4 }), (problem) => {
        problem.tests.forEach(({ places }, t) => {
          const outcomes = outcomesOf(problem, atStart(problem), t);
          expect(outcomes.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 10);
          for (const { knowledge } of outcomes) {
            for (const place of places) expect(knowledge.open.has(place)).toBe(true);
            expect(knowledge.done?.has(t)).toBe(true);
          }
        });
      }),
      { numRuns: 50, seed: 9 },
    );
  });

  test('when a repair was the wrong one then what it mends is ruled out and its place is open', () => {
    const { chance, knowledge } = afterWrongRepair(
      fuseOrPump(0.25, 1),
      { weights: [1, 3], open: new Set() },
      1,
    );
    expect(chance).toBeCloseTo(0.25, 10);
    expect(knowledge).toEqual({ weights: [1, 0], open: new Set([0]) });
  });
});
