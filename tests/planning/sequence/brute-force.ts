/**
 * The optimum by brute force, for small problems: every step from every knowledge, nothing remembered, nothing left out but what tells
 * nothing. Written apart from the planner and from its own reading of the problem.
 */
import type { Problem } from '../../../src/planning/sequence/problem.js';

export function bruteForce(problem: Problem): number {
  const all = problem.possibilities.map(({ weight }, i) => ({ i, weight }));
  const tests = problem.tests.map((_, number) => number);
  return least(problem, all, [], tests);
}

type Left = readonly { readonly i: number; readonly weight: number }[];

/** Expected minutes times the weight that is left. */
function least(problem: Problem, left: Left, open: readonly number[], tests: readonly number[]): number {
  const { possibilities, repairs, places } = problem;
  const weight = left.reduce((sum, entry) => sum + entry.weight, 0);
  const needed = [...new Set(left.map(({ i }) => possibilities[i]!.repair))];
  let best = Infinity;
  for (const repair of needed) {
    const { minutes, place } = repairs[repair]!;
    const opening = place === undefined || open.includes(place) ? 0 : places[place]!;
    const others = left.filter(({ i }) => possibilities[i]!.repair !== repair);
    const wrong = others.reduce((sum, entry) => sum + entry.weight, 0);
    const rest =
      others.length === 0 ? 0 : least(problem, others, place === undefined ? open : [...open, place], tests);
    best = Math.min(best, weight * opening + wrong * minutes + rest);
  }
  if (needed.length === 1) return best;
  for (const test of tests) {
    const { minutes, places: at, shows } = problem.tests[test]!;
    const outcomes = [...new Set(left.flatMap(({ i }) => shows[i]!.map(([outcome]) => outcome)))];
    let total = weight * minutes;
    for (const place of at) if (!open.includes(place)) total += weight * places[place]!;
    for (const outcome of outcomes) {
      const after = left.flatMap(({ i, weight: before }) => {
        const chance = shows[i]!.find(([shown]) => shown === outcome)?.[1] ?? 0;
        return chance === 0 ? [] : [{ i, weight: before * chance }];
      });
      if (total >= best) break;
      total += least(
        problem,
        after,
        [...open, ...at],
        tests.filter((other) => other !== test),
      );
    }
    best = Math.min(best, total);
  }
  return best;
}
