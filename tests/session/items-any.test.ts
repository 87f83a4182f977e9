/** Items in any order of things done: whatever was not refused, every item is in one place, and lamps hang where fuses are out. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decide } from '../../src/session/decide.js';
import type { Action, Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { KNOWN_GOOD, type SetUp } from '../../src/session/setup.js';
import { kinds } from './kinds-circuit.js';

const ITEMS = ['H1', 'H2', 'F1', 'F2', 'F9'];
const part = fc.constantFrom(...ITEMS);
const action: fc.Arbitrary<Action> = fc.oneof(
  fc
    .tuple(
      fc.constantFrom(
        ...([
          'take out',
          'refit',
          'fit new',
          'fit known-good',
          'lamp in place',
          'remove lamp',
          'reset',
        ] as const),
      ),
      part,
    )
    .map(([what, id]): Action => ({ do: what, part: id })),
  fc.tuple(part, part).map((parts): Action => ({ do: 'swap', parts })),
  fc.constant<Action>({ do: 'wait', minutes: 5 }),
);

function check(setUp: SetUp): void {
  const swapped = [...setUp.fitted].filter(([, item]) => item !== KNOWN_GOOD);
  expect(swapped.map(([position]) => position).sort()).toEqual(swapped.map(([, item]) => item).sort());
  expect(swapped.every(([position, item]) => position !== item)).toBe(true);
  for (const lamp of setUp.lamps) expect(setUp.out.has(lamp)).toBe(true);
}

test('when anything that is not refused is done then no item is in two places', () => {
  let done = 0;
  fc.assert(
    fc.property(fc.array(action, { minLength: 15, maxLength: 30 }), (actions) => {
      const recorded: Recorded[] = [];
      for (const one of actions) {
        const before = foldCase(kinds, recorded).now;
        const decision = decide(kinds, recorded, [{ type: 'did', action: one }]);
        if (!decision.ok) {
          expect(decision.mend).not.toBe('');
          continue;
        }
        done++;
        recorded.push({ number: recorded.length + 1, at: '', event: { type: 'did', action: one } });
        const { now } = foldCase(kinds, recorded);
        check(now);
        if (one.do !== 'wait') expect(now.rested).toBe(0);
        else expect(now.rested).toBe(before.rested + 5);
      }
    }),
    { numRuns: 200, seed: 4 },
  );
  // Not everything was refused.
  expect(done).toBeGreaterThan(1000);
});

test('when a swap in the middle is undone then the session still folds', () => {
  const did = (one: Action, number: number): Recorded => ({
    number,
    at: '',
    event: { type: 'did', action: one },
  });
  fc.assert(
    fc.property(fc.array(action, { minLength: 1, maxLength: 12 }), fc.nat(11), (actions, pick) => {
      const recorded = actions.map((one, i) => did(one, i + 1));
      const undo: Recorded = {
        number: recorded.length + 1,
        at: '',
        event: { type: 'undone', number: (pick % recorded.length) + 1 },
      };
      const { now } = foldCase(kinds, [...recorded, undo]);
      for (const lamp of now.lamps) expect(now.out.has(lamp)).toBe(true);
    }),
    { numRuns: 200, seed: 5 },
  );
});
