/**
 * A problem made ready for looking ahead from one state of knowledge: only what is left, possibilities that nothing tells apart
 * counted as one, classes of reading that mean the same merged, tests that tell nothing or tell the same for more minutes left out.
 */
import type { Knowledge, Problem, SequencedTest } from './problem.js';

export interface PreparedTest {
  /** Its number in the problem. */
  readonly number: number;
  readonly minutes: number;
  readonly places: readonly number[];
  readonly classCount: number;
  /** What possibility i may show: entries start[i] to start[i + 1] of `classes` and `chances`, by class. */
  readonly start: Int32Array;
  readonly classes: Int32Array;
  readonly chances: Float64Array;
  /** Every possibility shows one class only, so that the test once done has nothing more to tell. */
  readonly certain: boolean;
}

export interface PreparedRepair {
  /** Its number in the problem. */
  readonly number: number;
  readonly minutes: number;
  /** Place to open for it, or -1. */
  readonly place: number;
}

export interface Prepared {
  /** Weights at the start, adding up to 1. */
  readonly weights: Float64Array;
  /** Per possibility its repair, counted within `repairs`. */
  readonly repairOf: Int32Array;
  readonly repairs: readonly PreparedRepair[];
  readonly tests: readonly PreparedTest[];
  /** Minutes to open each place. */
  readonly places: readonly number[];
  /** All tests are certain: what is left says everything about the weights. */
  readonly certain: boolean;
}

/** Classes whose chances differ by a common factor mean the same; compared to so many digits. */
const DIGITS = 9;

/**
 * @throws RangeError when the knowledge does not belong to the problem or leaves nothing possible
 */
export function prepare(problem: Problem, knowledge: Knowledge): Prepared {
  const left = leftOf(problem, knowledge);
  const asked = problem.tests
    .map((test, number) => ({ test, number }))
    .filter(({ number }) => !knowledge.done?.has(number));
  const merged = new Map<string, { first: number; weight: number }>();
  for (const i of left) {
    const rows = asked.map(({ test }) =>
      sortedRow(test, i).map(([outcome, chance]) => `${outcome}:${chance}`),
    );
    const key = `${problem.possibilities[i]!.repair}|${rows.join('|')}`;
    const known = merged.get(key);
    if (known === undefined) merged.set(key, { first: i, weight: knowledge.weights[i]! });
    else known.weight += knowledge.weights[i]!;
  }
  const kept = [...merged.values()];
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  const numbers = [...new Set(kept.map(({ first }) => problem.possibilities[first]!.repair))];
  const tests = withoutDearerTwins(
    asked.flatMap(({ test, number }) => {
      const columns = columnsOf(kept.map(({ first }) => sortedRow(test, first)));
      return columns.length < 2
        ? []
        : [{ columns, prepared: preparedTest(test, number, columns, kept.length) }];
    }),
  );
  return {
    weights: Float64Array.from(kept, ({ weight }) => weight / total),
    repairOf: Int32Array.from(kept, ({ first }) => numbers.indexOf(problem.possibilities[first]!.repair)),
    repairs: numbers.map((number) => {
      const { minutes, place } = problem.repairs[number]!;
      return { number, minutes, place: place ?? -1 };
    }),
    tests,
    places: problem.places,
    certain: tests.every(({ certain }) => certain),
  };
}

function leftOf(problem: Problem, { weights }: Knowledge): number[] {
  const count = problem.possibilities.length;
  if (weights.length !== count)
    throw new RangeError(
      `Knowledge has ${weights.length} weights, the problem ${count} possibilities: one each.`,
    );
  const left = weights.flatMap((weight, i) => (weight > 0 ? [i] : []));
  if (left.length === 0) throw new RangeError('Nothing is left that may be wrong: nothing to plan for.');
  return left;
}

type Row = readonly (readonly [outcome: number, chance: number])[];
/** One class: the possibilities that may show it, with their chances. */
type Column = readonly (readonly [possibility: number, chance: number])[];

function sortedRow({ shows }: SequencedTest, possibility: number): Row {
  return shows[possibility]!.filter(([, chance]) => chance > 0).sort(([a], [b]) => a - b);
}

/** The classes of a test; those that say the same about what is left are one. */
function columnsOf(rows: readonly Row[]): Column[] {
  const byOutcome = new Map<number, [number, number][]>();
  rows.forEach((row, i) => {
    for (const [outcome, chance] of row) {
      const column = byOutcome.get(outcome);
      if (column === undefined) byOutcome.set(outcome, [[i, chance]]);
      else column.push([i, chance]);
    }
  });
  const byMeaning = new Map<string, [number, number][]>();
  for (const column of byOutcome.values()) {
    const unit = column[0]![1];
    const key = column.map(([i, chance]) => `${i}:${(chance / unit).toPrecision(DIGITS)}`).join();
    const same = byMeaning.get(key);
    if (same === undefined) byMeaning.set(key, column);
    else column.forEach(([, chance], k) => (same[k]![1] += chance));
  }
  return [...byMeaning.values()];
}

function preparedTest(
  test: SequencedTest,
  number: number,
  columns: readonly Column[],
  count: number,
): PreparedTest {
  const rows = Array.from({ length: count }, (): [number, number][] => []);
  columns.forEach((column, outcome) => {
    for (const [i, chance] of column) rows[i]!.push([outcome, chance]);
  });
  const start = new Int32Array(count + 1);
  rows.forEach((row, i) => (start[i + 1] = start[i]! + row.length));
  const certain = rows.every((row) => row.length === 1);
  return {
    number,
    minutes: test.minutes,
    places: test.places,
    classCount: columns.length,
    start,
    classes: Int32Array.from(rows.flat(), ([outcome]) => outcome),
    // A row of one entry is sure, whatever rounding made of its chance.
    chances: Float64Array.from(rows.flat(), ([, chance]) => (certain ? 1 : chance)),
    certain,
  };
}

/** Of certain tests that sort what is left alike, those that neither cost more nor open more than another. */
function withoutDearerTwins(
  tests: readonly { readonly columns: readonly Column[]; readonly prepared: PreparedTest }[],
): PreparedTest[] {
  const byMeaning = new Map<string, PreparedTest[]>();
  const kept: PreparedTest[] = [];
  for (const { columns, prepared } of [...tests].sort((a, b) => a.prepared.minutes - b.prepared.minutes)) {
    if (prepared.certain) {
      const sorted = columns.map((column) => column.map(([i]) => i).join()).sort();
      const key = sorted.join('|');
      const twins = byMeaning.get(key) ?? [];
      if (twins.some(({ places }) => places.every((place) => prepared.places.includes(place)))) continue;
      byMeaning.set(key, [...twins, prepared]);
    }
    kept.push(prepared);
  }
  return kept;
}
