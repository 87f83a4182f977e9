import { expect, test } from 'vitest';
import type { Likely } from '../../src/planning/likely.js';
import type { Member } from '../../src/planning/outcome-words.js';
import { bitsOf, fewPiles, mostly, weightOf } from '../../src/planning/piles.js';

/** A version that needs this repair and would read this figure. */
function member(group: number, figure: number, weight = 1): Member {
  const likely: Likely = {
    key: `${group} ${figure}`,
    faults: [],
    blown: 0,
    group,
    suspect: group,
    at: [],
    steady: true,
    name: '',
    atMeter: undefined,
    weight,
  };
  return { likely, figure, span: [figure, figure + 1] };
}

test('when neighbours need the same repairs then they become one pile', () => {
  const piles = fewPiles([[member(0, 0)], [member(1, 1)], [member(1, 2)], [member(1, 3)]], 0);
  expect(piles.map((pile) => pile.map(({ figure }) => figure))).toEqual([[0], [1, 2, 3]]);
});

test('when many piles each tell something then those that lose least are joined until three are left', () => {
  const piles = fewPiles(
    [[member(0, 0, 4)], [member(1, 1, 4)], [member(2, 2, 4)], [member(3, 3)], [member(4, 4)]],
    0,
  );
  expect(piles.map((pile) => pile.map(({ figure }) => figure))).toEqual([[0], [1], [2, 3, 4]]);
});

test('when a pile is rare then it goes to a neighbour, as long as there are more than two', () => {
  const list = [[member(0, 0, 50)], [member(1, 1, 0.5)], [member(2, 2, 49.5)]];
  expect(fewPiles(list, 0.01)).toHaveLength(2);
  expect(fewPiles([list[0]!, list[1]!], 0.01)).toHaveLength(2);
});

test('when piles are joined then no version is lost', () => {
  const list = Array.from({ length: 20 }, (_, i) => [member(i % 5, i, 1 + (i % 3))]);
  const joined = fewPiles(list, 0.05);
  expect(joined.length).toBeLessThanOrEqual(3);
  expect(joined.flat().map(({ figure }) => figure)).toEqual(list.flat().map(({ figure }) => figure));
  expect(joined.reduce((sum, pile) => sum + weightOf(pile), 0)).toBeCloseTo(
    list.reduce((sum, pile) => sum + weightOf(pile), 0),
  );
});

test('when piles part four equal repairs in halves then they tell one bit, and all apart two', () => {
  const [a, b, c, d] = [0, 1, 2, 3].map((group) => member(group, group)) as [Member, Member, Member, Member];
  expect(bitsOf([[a, b, c, d]])).toBeCloseTo(0);
  expect(
    bitsOf([
      [a, b],
      [c, d],
    ]),
  ).toBeCloseTo(1);
  expect(bitsOf([[a], [b], [c], [d]])).toBeCloseTo(2);
});

test('when few of a pile lie far out then its range leaves them aside', () => {
  expect(mostly([member(0, 0, 96), member(0, 12, 4)])).toEqual([0, 0]);
  expect(mostly([member(0, 0, 90), member(0, 12, 10)])).toEqual([0, 12]);
});
