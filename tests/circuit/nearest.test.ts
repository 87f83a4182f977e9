import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { didYouMean, distance, nearest } from '../../src/circuit/nearest.js';

describe('distance', () => {
  it.each([
    ['kitten', 'sitting', 3], // the example of every textbook on edit distance
    ['ca', 'ac', 1],
    ['ca', 'abc', 3], // optimal string alignment, where unrestricted Damerau gives 2
    ['', 'abc', 3],
    ['same', 'same', 0],
  ])('when %s becomes %s then %d steps are needed', (a, b, steps) => {
    expect(distance(a, b)).toBe(steps);
  });

  it('when the two are exchanged then the distance is the same, and a limit only cuts it off', () => {
    const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 7 });
    fc.assert(
      fc.property(word, word, fc.nat(7), (a, b, limit) => {
        const whole = distance(a, b);
        expect(distance(b, a)).toBe(whole);
        if (whole <= limit) expect(distance(a, b, limit)).toBe(whole);
        else expect(distance(a, b, limit)).toBeGreaterThan(limit);
      }),
      { seed: 4, numRuns: 1000 },
    );
  });
});

describe('nearest', () => {
  it.each([
    ['ratting', ['rating', 'place', 'price'], 'rating'],
    ['H1.13', ['H1.1', 'H1.31'], 'H1.31'],
    ['x3.2H', ['X3.1h', 'X3.2h'], 'X3.2h'],
    ['fusebox', ['loom', 'fuse box'], 'fuse box'],
    ['quite different', ['rating', 'place'], undefined],
    ['z'.repeat(100), ['rating'], undefined],
  ])('when %s is typed among %j then %s is meant', (typed, known, meant) => {
    expect(nearest(typed, known)).toBe(meant);
  });
});

describe('didYouMean', () => {
  it('when nothing is near then the known names are listed', () => {
    expect(didYouMean('start', ['off', 'on'], 'position')).toBe('use one of: off, on');
  });

  it('when there are no names at all then one is to be added', () => {
    expect(didYouMean('key', [], 'control')).toBe('there is no control in this file yet: add one');
  });
});
