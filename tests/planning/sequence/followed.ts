/** Expected minutes of a road when the plan is followed, and made anew after every step, until one repair is left. */
import { afterWrongRepair, outcomesOf } from '../../../src/planning/sequence/knowledge.js';
import type { Knowledge, Problem, Step } from '../../../src/planning/sequence/problem.js';

/** @param choose the next step from what is known */
export function followed(
  problem: Problem,
  knowledge: Knowledge,
  choose: (knowledge: Knowledge) => Step,
  known = new Map<string, number>(),
): number {
  const { possibilities, repairs, tests, places } = problem;
  const left = new Set(
    knowledge.weights.flatMap((weight, i) => (weight > 0 ? [possibilities[i]!.repair] : [])),
  );
  const opening = (needed: readonly number[]) =>
    needed.reduce((sum, place) => sum + (knowledge.open.has(place) ? 0 : places[place]!), 0);
  if (left.size === 1) return opening(placesOf(repairs[[...left][0]!]!));
  const total = knowledge.weights.reduce((sum, weight) => sum + weight, 0);
  const shares = knowledge.weights.map((weight) => (weight / total).toFixed(12));
  const key = [shares, [...knowledge.open].sort(), [...(knowledge.done ?? [])].sort()].join('|');
  let minutes = known.get(key);
  if (minutes !== undefined) return minutes;
  const step = choose(knowledge);
  const on = (next: Knowledge) => followed(problem, next, choose, known);
  if ('test' in step) {
    minutes = tests[step.test]!.minutes + opening(tests[step.test]!.places);
    for (const { chance, knowledge: next } of outcomesOf(problem, knowledge, step.test))
      minutes += chance * on(next);
  } else {
    const wrong = afterWrongRepair(problem, knowledge, step.repair);
    minutes = opening(placesOf(repairs[step.repair]!));
    minutes += wrong.chance * (repairs[step.repair]!.minutes + on(wrong.knowledge));
  }
  known.set(key, minutes);
  return minutes;
}

function placesOf({ place }: Problem['repairs'][number]): readonly number[] {
  return place === undefined ? [] : [place];
}
