/** The planner's three ways on one problem, from its start, for tests. */
import { Exact } from '../../../src/planning/sequence/exact.js';
import { Greedy } from '../../../src/planning/sequence/greedy.js';
import { prepare } from '../../../src/planning/sequence/prepared.js';
import type { Problem } from '../../../src/planning/sequence/problem.js';
import { RollOut } from '../../../src/planning/sequence/roll-out.js';
import { settled, startOf } from '../../../src/planning/sequence/state.js';
import { plan } from '../../../src/planning/sequence/plan.js';
import { atStart } from './vehicle-problems.js';

export function started(problem: Problem) {
  const prepared = prepare(problem, atStart(problem));
  return { prepared, start: startOf(prepared, new Set()) };
}

/** Exact minutes; undefined when given up. */
export function exactMinutes(problem: Problem, mostStates = 100_000): number | undefined {
  const { prepared, start } = started(problem);
  if (settled(prepared, start)) return plan(problem, atStart(problem)).expectedMinutes;
  return new Exact(prepared, mostStates).best(start, 1)?.[0]!.minutes;
}

export function rollOutMinutes(problem: Problem, mostStates = 500): number {
  const { prepared, start } = started(problem);
  if (settled(prepared, start)) return plan(problem, atStart(problem)).expectedMinutes;
  return new RollOut(prepared, mostStates).best(start)[0]!.minutes;
}

/** The most bits per minute, or trying: the plain rule alone. */
export function greedyMinutes(problem: Problem): number {
  const { prepared, start } = started(problem);
  return new Greedy(prepared, true).minutes(start);
}
