/**
 * How near the planner's roads come to the shortest one, on random problems that resemble a vehicle's (10 to 20 repairs): roll-out with
 * the exact mode off, and one step at a time, each followed to the end, against the optimum. Where every reading is certain the
 * optimum is the one of the separate solver over sets, and the planner's exact mode must agree with it; where readings overlap that
 * solver cannot follow, and it is the planner's exact mode, which the tests hold against brute force. Nothing is asserted about times.
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

const CERTAIN = 60;
const OVERLAPPING = 25;
const SETS: readonly (Size & { readonly problems: number })[] = [
  { problems: CERTAIN, groups: 10, tests: 20, places: 3, contacts: 0 },
  { problems: CERTAIN, groups: 13, tests: 24, places: 3, contacts: 0 },
  { problems: CERTAIN, groups: 16, tests: 28, places: 4, contacts: 0 },
  { problems: CERTAIN, groups: 20, tests: 32, places: 5, contacts: 0 },
  { problems: OVERLAPPING, groups: 10, tests: 20, places: 3, contacts: 0.2 },
  { problems: OVERLAPPING, groups: 13, tests: 24, places: 3, contacts: 0.2 },
  { problems: OVERLAPPING, groups: 16, tests: 28, places: 4, contacts: 0.15 },
];
/** Where the optimum is not found with so many states the problem is left out, and counted. */
const MOST_STATES = 20_000;
const ROLL_OUT = { exactStates: 0, rollOutStates: 1500 };

test('roads against the shortest one', () => {
  const rows = SETS.map((size, set) => {
    const row: Row = {
      size,
      rolled: [],
      greedy: [],
      times: { exact: [], rolled: [], greedy: [] },
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
  const optimum = row.size.contacts === 0 ? subsetOptimum(problem).minutes : exact;
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
  'repairs tests overlap problems (given up)  roll-out mean worst   greedy mean worst   ms (median, worst): exact | roll-out | greedy';

function lineOf({ size, rolled, greedy, times, gaveUp }: Row): string {
  const { groups, tests, contacts } = size;
  const ratio = (list: readonly number[]) => `${mean(list).toFixed(4)} ${Math.max(...list).toFixed(4)}`;
  const time = (list: readonly number[]) => `${median(list).toFixed(1)}, ${Math.max(...list).toFixed(0)}`;
  const cells = [
    `${groups}`.padStart(7),
    `${tests}`.padStart(5),
    contacts.toFixed(2).padStart(7),
    `${rolled.length} (${gaveUp})`.padStart(19),
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
