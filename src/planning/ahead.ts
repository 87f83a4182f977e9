/**
 * The tests of a session as a problem of order (`sequence`): what may be wrong at which severity, what mends it, what each test
 * would show and cost. Its plan says which test leads to the right repair soonest, and whether trying a repair is sooner still.
 */
import type { Diagnosis } from '../diagnosis/diagnosis-types.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { visitedPlaces } from './cost.js';
import { costsOf, repairMinutes } from './costs-of.js';
import type { Spans } from './gain.js';
import type { Limits, Plan } from './sequence/plan.js';
import { minutesBy, plan } from './sequence/plan.js';
import type { Knowledge, Problem, SequencedTest } from './sequence/problem.js';
import type { Scales, Telling } from './weigh.js';

export interface Road extends Plan {
  /** Numbers in the plan's steps: repairs are groups of the diagnosis, tests are these. */
  readonly tests: readonly Telling[];
}

/** Tests planned with: the best by gain per minute, then those that tell most. */
const MOST_TESTS = { perMinute: 24, byGain: 8 };
/** The same where many repairs are left. */
const FEW_TESTS = { perMinute: 16, byGain: 4 };
const MANY_REPAIRS = 25;
/** Entries of the problem (tests x versions) times states, for the whole plan: some tens of milliseconds. */
const WORK = { exact: 60_000, rollOut: 250_000 };
const MOST_STATES = { exact: 400, rollOut: 1500 };
/** With fewer states allowed than this the exact answer is given up nearly always, and not begun. */
const LEAST_EXACT = 100;
/** Steps beside the best, tries among them, so that some are tests. */
const RUNNERS_UP = 7;
/** A band that reaches so little into the next class counts as not reaching it. */
const TOUCHES = 0.15;

export function roadFrom(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  scales: Scales,
  telling: readonly Telling[],
  exact = true,
): Road {
  const many = new Set(scales.likely.map(({ group }) => group)).size > MANY_REPAIRS;
  const tests = chosen(telling, many ? FEW_TESTS : MOST_TESTS);
  const { problem, knowledge } = problemOf(bench, session, diagnosis, scales, tests);
  return { ...plan(problem, knowledge, limitsFor(problem, exact)), tests };
}

/** Minutes to the right repair by way of the first of these tests; undefined where it tells nothing that counts. */
export function minutesBeginningWith(
  bench: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  scales: Scales,
  tests: readonly Telling[],
): number | undefined {
  const { problem, knowledge } = problemOf(bench, session, diagnosis, scales, [
    tests[0]!,
    ...chosen(tests.slice(1), FEW_TESTS),
  ]);
  return minutesBy(problem, knowledge, 0);
}

function problemOf(
  { circuit }: Workbench,
  session: Case,
  diagnosis: Diagnosis,
  scales: Scales,
  tests: readonly Telling[],
): { readonly problem: Problem; readonly knowledge: Knowledge } {
  const { likely } = scales;
  const names = [...circuit.places.keys()];
  const { look } = costsOf(circuit);
  const problem: Problem = {
    possibilities: likely.map(({ weight, group }) => ({ weight, repair: group })),
    repairs: diagnosis.groups.map(({ repair, suspects }) => {
      const place = names.indexOf(circuit.parts.get(suspects[0]!.faults[0]!.part)?.place ?? '');
      const minutes = repairMinutes(circuit, repair) + look;
      return place < 0 ? { minutes } : { minutes, place };
    }),
    tests: tests.map((test) => sequenced(names, scales, test)),
    places: names.map((name) => circuit.places.get(name)!.minutes),
  };
  const visited = visitedPlaces(circuit, session).flat();
  const open = new Set(visited.map((name) => names.indexOf(name)));
  return { problem, knowledge: { weights: likely.map(({ weight }) => weight), open } };
}

function limitsFor({ tests, possibilities }: Problem, exact: boolean): Limits {
  const entries = 1 + tests.length * possibilities.length;
  const states = Math.min(MOST_STATES.exact, Math.floor(WORK.exact / entries));
  return {
    exactStates: !exact || states < LEAST_EXACT ? 0 : states,
    rollOutStates: Math.min(MOST_STATES.rollOut, Math.floor(WORK.rollOut / entries)),
    runnersUp: RUNNERS_UP,
  };
}

function chosen(telling: readonly Telling[], most: typeof MOST_TESTS): readonly Telling[] {
  const best = [...telling].sort((a, b) => b.value - a.value).slice(0, most.perMinute);
  const left = new Set(telling);
  for (const test of best) left.delete(test);
  return [...best, ...[...left].sort((a, b) => b.gain - a.gain).slice(0, most.byGain)];
}

function sequenced(
  names: readonly string[],
  { versionOf }: Scales,
  { outlook, effort, opens, opening, candidate }: Telling,
): SequencedTest {
  const rows = rowsOf(outlook, candidate.wiggle !== undefined);
  return {
    minutes: effort - opening,
    places: opens.map((name) => names.indexOf(name)),
    shows: Array.from(versionOf, (version) => rows[version]!),
  };
}

type Row = SequencedTest['shows'][number];

/** Per version the classes its band reaches: cut where a band begins beyond the one before it. */
export function rowsOf({ from, to }: Spans, wiggled: boolean): Row[] {
  const cuts = wiggled ? [1] : cutsOf(from, to);
  return Array.from(from, (low, version): Row => {
    const high = to[version]!;
    const row: [number, number][] = [];
    for (let c = 0; c <= cuts.length; c++) {
      const share =
        (Math.min(high, cuts[c] ?? Infinity) - Math.max(low, cuts[c - 1] ?? -Infinity)) / (high - low);
      if (share >= TOUCHES) row.push([c, share]);
    }
    const sum = row.reduce((total, [, share]) => total + share, 0);
    return row.map(([c, share]) => [c, row.length === 1 ? 1 : share / sum]);
  });
}

function cutsOf(from: Float64Array, to: Float64Array): number[] {
  const order = [...from.keys()].sort((a, b) => from[a]! + to[a]! - from[b]! - to[b]!);
  const cuts: number[] = [];
  let reach = Infinity;
  for (const version of order) {
    if (from[version]! >= reach - 1e-9) {
      cuts.push(from[version]!);
      reach = to[version]!;
    } else if (reach === Infinity) reach = to[version]!;
  }
  return cuts;
}
