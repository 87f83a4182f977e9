/** How knowledge grows along a road: what each outcome of a test, or a repair that was the wrong one, leaves. */
import type { Knowledge, Problem } from './problem.js';

export interface Outcome {
  /** Number of the class, as in the test's `shows`. */
  readonly outcome: number;
  /** How likely it is, 0 to 1. */
  readonly chance: number;
  readonly knowledge: Knowledge;
}

/** What a test may show, by class number, and what is known then. */
export function outcomesOf(problem: Problem, { weights, open, done }: Knowledge, test: number): Outcome[] {
  const { shows, places } = problem.tests[test]!;
  const byOutcome = new Map<number, number[]>();
  weights.forEach((weight, i) => {
    if (weight <= 0) return;
    for (const [outcome, chance] of shows[i]!) {
      if (chance <= 0) continue;
      let left = byOutcome.get(outcome);
      if (left === undefined) byOutcome.set(outcome, (left = weights.map(() => 0)));
      left[i]! += weight * chance;
    }
  });
  const total = sum(weights);
  return [...byOutcome]
    .sort(([a], [b]) => a - b)
    .map(([outcome, left]) => ({
      outcome,
      chance: sum(left) / total,
      knowledge: {
        weights: left,
        open: new Set([...open, ...places]),
        done: new Set([...(done ?? []), test]),
      },
    }));
}

/** What is known when a repair was tried and the condition still fails; chance: how likely that is. */
export function afterWrongRepair(
  { possibilities, repairs }: Problem,
  { weights, open, done }: Knowledge,
  repair: number,
): Omit<Outcome, 'outcome'> {
  const left = weights.map((weight, i) => (possibilities[i]!.repair === repair ? 0 : weight));
  const { place } = repairs[repair]!;
  return {
    chance: sum(left) / sum(weights),
    knowledge: {
      weights: left,
      open: place === undefined ? open : new Set([...open, place]),
      ...(done === undefined ? {} : { done }),
    },
  };
}

function sum(weights: readonly number[]): number {
  return weights.reduce((total, weight) => total + weight, 0);
}
