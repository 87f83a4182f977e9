import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkingOrder, tryingOf } from '../../../src/planning/sequence/order.js';
import type { Problem } from '../../../src/planning/sequence/problem.js';
import { bruteForce } from './brute-force.js';
import { exactMinutes, started } from './solved.js';

/** Where tests alone settle it. */
const NEVER_TRIED = 1e4;

interface Part {
  readonly weight: number;
  readonly minutes: number;
}

const parts = fc.array(
  fc.record({ weight: fc.integer({ min: 1, max: 100 }), minutes: fc.integer({ min: 1, max: 30 }) }),
  { minLength: 2, maxLength: 8 },
);

describe('perfect checks of one part each', () => {
  test('when parts differ in minutes and probability then the least minutes over probability go first', () => {
    const checks = [
      { weight: 10, minutes: 5 },
      { weight: 40, minutes: 10 },
      { weight: 20, minutes: 2 },
      { weight: 30, minutes: 60 },
    ];
    // 0.10, 0.25, 0.50 minutes a per cent; the last needs no check. By hand: 2 + 0.8 x 10 + 0.4 x 5 = 12.
    expect(checkingOrder(checks)).toEqual({ order: [2, 1, 0, 3], expectedMinutes: expect.closeTo(12, 10) });
  });

  test('when all orders are possible then no road is shorter than the one by the rule', () => {
    fc.assert(
      fc.property(parts, (checks) => {
        expect(checkingOrder(checks).expectedMinutes).toBeCloseTo(exactMinutes(checksOnly(checks))!, 7);
      }),
      { numRuns: 60, seed: 2 },
    );
  });

  test('when there is nothing to check then it takes no time', () => {
    expect(checkingOrder([])).toEqual({ order: [], expectedMinutes: 0 });
  });
});

describe('repairs tried one after the other', () => {
  test('when two repairs are as likely then the shorter is tried first', () => {
    const { prepared, start } = started(
      triesOnly(
        [
          { weight: 1, minutes: 20 },
          { weight: 1, minutes: 5 },
        ],
        [],
        [],
      ),
    );
    expect(tryingOf(prepared, start)).toEqual({ first: 1, minutes: 2.5 });
  });

  test('when repairs share places to open then no order is shorter', () => {
    const placed = fc.record({
      list: fc.array(
        fc.record({ weight: fc.constantFrom(1, 3, 10, 50), minutes: fc.integer({ min: 0, max: 20 }) }),
        {
          minLength: 2,
          maxLength: 6,
        },
      ),
      at: fc.array(fc.integer({ min: -1, max: 2 }), { minLength: 6, maxLength: 6 }),
      places: fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 3, maxLength: 3 }),
    });
    fc.assert(
      fc.property(placed, ({ list, at, places }) => {
        const problem = triesOnly(list, at, places);
        const { prepared, start } = started(problem);
        const weight = list.reduce((sum, part) => sum + part.weight, 0);
        expect(tryingOf(prepared, start).minutes).toBeCloseTo(bruteForce(problem) / weight, 8);
      }),
      { numRuns: 300, seed: 3 },
    );
  });
});

function checksOnly(checks: readonly Part[]): Problem {
  return {
    possibilities: checks.map(({ weight }, repair) => ({ weight, repair })),
    repairs: checks.map(() => ({ minutes: NEVER_TRIED })),
    tests: checks.map(({ minutes }, t) => ({
      minutes,
      places: [],
      shows: checks.map((_, i) => [[i === t ? 1 : 0, 1]]),
    })),
    places: [],
  };
}

function triesOnly(list: readonly Part[], at: readonly number[], places: readonly number[]): Problem {
  return {
    possibilities: list.map(({ weight }, repair) => ({ weight, repair })),
    repairs: list.map(({ minutes }, i) => ((at[i] ?? -1) < 0 ? { minutes } : { minutes, place: at[i]! })),
    tests: [],
    places,
  };
}
