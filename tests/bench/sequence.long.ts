/**
 * How near the planner's roads come to the shortest one, on random problems that resemble a vehicle's (10 to 20 repairs): roll-out with
 * the exact mode off, and one step at a time, each followed to the end, against the optimum. The optimum is that of a separate solver,
 * over sets where every reading is certain, over weights where readings overlap, and the planner's exact mode must agree with it. What
 * the separate solver cannot finish is measured against the exact mode alone, and counted. Nothing is asserted about times.
 */
import { expect, test } from 'vitest';
import { Exact } from '../../src/planning/sequence/exact.js';
import { plan } from '../../src/planning/sequence/plan.js';
import type { Problem } from '../../src/planning/sequence/problem.js';
import { followed } from '../planning/sequence/followed.js';
import { greedyMinutes, started } from '../planning/sequence/solved.js';
import { subsetOptimum } from '../planning/sequence/subset-solver.js';
import type { Size } from '../planning/sequence/vehicle-problems.js';
import { atStart, vehicleProblem } from '../planning/sequence/vehicle-problems.js';
import { weightsOptimum } from '../planning/sequence/weights-solver.js';

const CERTAIN = 60;
const OVERLAPPING = 30;
const SETS: readonly (Size & { readonly problems: number })[] = [
  { problems: CERTAIN, groups: 10, tests: 20, places: 3, contacts: 0 },
  { problems: CERTAIN, groups: 13, tests: 24, places: 3, contacts: 0 },
  { problems: CERTAIN, groups: 16, tests: 28, places: 4, contacts: 0 },
  { problems: CERTAIN, groups: 20, tests: 32, places: 5, contacts: 0 },
  { problems: OVERLAPPING, groups: 10, tests: 16, places: 3, contacts: 0.2 },
  { problems: OVERLAPPING, groups: 13, tests: 20, places: 3, contacts: 0.15 },
  { problems: OVERLAPPING, groups: 16, tests: 24, places: 4, contacts: 0.15 },
];
/** Where the optimum is not found with so many states the problem is left out, and counted. */
const MOST_STATES = 20_000;
const MOST_SEPARATE = 60_000;
const ROLL_OUT = { exactStates: 0, rollOutStates: 1500 };

test('roads against the shortest one', () => {
  const rows = SETS.map((size, set) => {
    const row: Row = {
      size,
      rolled: [],
      greedy: [],
      times: { exact: [], rolled: [], greedy: [] },
      alone: 0,
      gaveUp: 0,
    };
    for (let k = 0; k < size.problems; k++) measure(row, vehicleProblem(10_000 * (set + 1) + k, size));
    return row;
  });
  console.log(
    ['Roads of random vehicle problems against the shortest one', HEADER, ...rows.map(lineOf)].join('\n'),
  );
});

interface Row {
  readonly size: Size & { readonly problems: number };
  readonly rolled: number[];
  readonly greedy: number[];
  /** Milliseconds: one exact answer, one step by roll-out from the start, the value of going one step at a time. */
  readonly times: { readonly exact: number[]; readonly rolled: number[]; readonly greedy: number[] };
  /** Measured against the planner's exact mode alone. */
  alone: number;
  gaveUp: number;
}

function measure(row: Row, problem: Problem): void {
  const start = atStart(problem);
  const [greedy, greedyTime] = timed(() => greedyMinutes(problem));
  const [exact, exactTime] = timed(() => {
    const { prepared, start: state } = started(problem);
    return new Exact(prepared, MOST_STATES).best(state, 1, greedy)?.[0]?.minutes;
  });
  if (exact === undefined) {
    row.gaveUp++;
    return;
  }
  const separate =
    row.size.contacts === 0 ? subsetOptimum(problem).minutes : weightsOptimum(problem, MOST_SEPARATE);
  if (separate === undefined) row.alone++;
  const optimum = separate ?? exact;
  expect(exact).toBeCloseTo(optimum, 6);
  const [, rolledTime] = timed(() => plan(problem, start, ROLL_OUT));
  const took = followed(problem, start, (known) => plan(problem, known, ROLL_OUT).step);
  row.rolled.push(took / optimum);
  row.greedy.push(greedy / optimum);
  row.times.exact.push(exactTime);
  row.times.rolled.push(rolledTime);
  row.times.greedy.push(greedyTime);
}

function timed<T>(work: () => T): [T, number] {
  const began = performance.now();
  const result = work();
  return [result, performance.now() - began];
}

const HEADER =
  'repairs tests overlap problems (exact alone, given up)  roll-out mean worst   greedy mean worst   ms (median, worst): exact | roll-out | greedy';

function lineOf({ size, rolled, greedy, times, alone, gaveUp }: Row): string {
  const { groups, tests, contacts } = size;
  const ratio = (list: readonly number[]) => `${mean(list).toFixed(4)} ${Math.max(...list).toFixed(4)}`;
  const time = (list: readonly number[]) => `${median(list).toFixed(1)}, ${Math.max(...list).toFixed(0)}`;
  const cells = [
    `${groups}`.padStart(7),
    `${tests}`.padStart(5),
    contacts.toFixed(2).padStart(7),
    `${rolled.length} (${alone}, ${gaveUp})`.padStart(31),
    ratio(rolled).padStart(20),
    ratio(greedy).padStart(19),
    `  ${time(times.exact)} | ${time(times.rolled)} | ${time(times.greedy)}`,
  ];
  return cells.join(' ');
}

function mean(list: readonly number[]): number {
  return list.reduce((sum, value) => sum + value, 0) / list.length;
}

function median(list: readonly number[]): number {
  return [...list].sort((a, b) => a - b)[list.length >> 1]!;
}
