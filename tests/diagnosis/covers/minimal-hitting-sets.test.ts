import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimalHittingSets } from '../../../src/diagnosis/covers/covers.js';
import { bruteMinimalHittingSets } from './brute-force.js';
import { randomFamily, seeded, whole } from './families.js';

describe('minimal hitting sets', () => {
  it('when 500 random families are searched then the answer equals that of trying every subset', () => {
    for (let number = 0; number < 500; number++) {
      const random = seeded(1000 + number);
      const members = whole(random, 1, 9);
      const sets = randomFamily(random, members, whole(random, 0, 8), 0.2 + 0.5 * random());
      const all = bruteMinimalHittingSets(members, sets);
      expect(minimalHittingSets(sets), `family ${number}`).toEqual(all);
      expect(minimalHittingSets(sets, 2)).toEqual(all.filter((hit) => hit.length <= 2));
    }
  });

  it('when there is nothing to hit then the empty set does', () => {
    expect(minimalHittingSets([])).toEqual([[]]);
  });

  it('when one set is empty then nothing hits it', () => {
    expect(minimalHittingSets([[1, 2], []])).toEqual([]);
  });

  it('when the answer is hit in turn then the minimal sets of the family come back', () => {
    // Berge, Hypergraphs (1989): the transversals of the transversals are the minimal edges.
    const families = fc.array(fc.uniqueArray(fc.nat({ max: 7 }), { minLength: 1, maxLength: 5 }), {
      maxLength: 6,
    });
    fc.assert(
      fc.property(families, (sets) => {
        const edges = sets.map((set) => [...set].sort((a, b) => a - b));
        const minimal = edges.filter(
          (edge, i) =>
            !edges.some(
              (other, k) => other.every((m) => edge.includes(m)) && (other.length < edge.length || k < i),
            ),
        );
        expect(new Set(minimalHittingSets(minimalHittingSets(sets)).map(String))).toEqual(
          new Set(minimal.map(String)),
        );
      }),
      { seed: 21, numRuns: 300 },
    );
  });
});
