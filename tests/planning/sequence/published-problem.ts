/**
 * The example of Pattipati & Alexandridis, "Application of heuristic search and information theory to sequential fault diagnosis",
 * IEEE Trans. SMC 20 (1990): six states (s0: nothing wrong), five tests, pass or fail. The matrix and the optimum of 2.18 are from
 * memory; 2.18 and, with other costs, 6.18 were computed again by a separate program.
 */
import type { Problem } from '../../../src/planning/sequence/problem.js';

const STATES: readonly (readonly [weight: number, fails: string])[] = [
  [0.7, '00000'],
  [0.01, '01001'],
  [0.02, '00110'],
  [0.1, '10011'],
  [0.05, '11000'],
  [0.12, '11110'],
];
/** There tests alone settle it: a try would cost more than all of them. */
const NEVER_TRIED = 1e4;

export function publishedProblem(costs: readonly number[]): Problem {
  return {
    possibilities: STATES.map(([weight], repair) => ({ weight, repair })),
    repairs: STATES.map(() => ({ minutes: NEVER_TRIED })),
    tests: costs.map((minutes, t) => ({
      minutes,
      places: [],
      shows: STATES.map(([, fails]) => [[Number(fails[t]), 1]]),
    })),
    places: [],
  };
}
