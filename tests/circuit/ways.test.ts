/** Ways for current, against a search that tries every simple path. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { carries, reach, type Link } from '../../src/circuit/ways.js';

/** Is there a path + … a, load, b … − (or the other way round) that meets no net twice? Tries them all. */
function carriesByTrying(links: readonly Link[], a: number, b: number, plus: number, minus: number): boolean {
  const from = (
    net: number,
    used: ReadonlySet<number>,
    goal: number,
    then: (used: ReadonlySet<number>) => boolean,
  ): boolean => {
    if (net === goal) return then(used);
    return links.some(({ a: one, b: other }) => {
      const next = one === net ? other : other === net ? one : -1;
      return next >= 0 && !used.has(next) && from(next, new Set([...used, next]), goal, then);
    });
  };
  const bothEnds = (high: number, low: number) =>
    from(
      high,
      new Set([high, low]),
      plus,
      (used) => low === minus || (!used.has(minus) && from(low, used, minus, () => true)),
    ) &&
    high !== minus &&
    low !== plus;
  return a !== b && (bothEnds(a, b) || bothEnds(b, a));
}

describe('when current looks for a way through a load', () => {
  test('when any small graph is drawn then the two disjoint ways agree with trying every path', () => {
    const graph = fc.integer({ min: 2, max: 7 }).chain((count) => {
      const net = fc.integer({ min: 0, max: count - 1 });
      return fc.record({
        count: fc.constant(count),
        links: fc.array(fc.record({ a: net, b: net }), { maxLength: 11 }),
        ends: fc.tuple(net, net),
        posts: fc.uniqueArray(net, { minLength: 2, maxLength: 2 }),
      });
    });
    let yes = 0;
    let no = 0;
    fc.assert(
      fc.property(graph, ({ count, links, ends: [a, b], posts: [plus, minus] }) => {
        const wanted = carriesByTrying(links, a, b, plus!, minus!);
        if (wanted) yes++;
        else no++;
        expect(carries(count, links, a, b, plus!, minus!)).toBe(wanted);
      }),
      { seed: 20, numRuns: 4000 },
    );
    // Both answers must have come up often, or the comparison says little.
    expect(Math.min(yes, no)).toBeGreaterThan(500);
  });

  test('when the second way must push the first one aside then current still flows', () => {
    // Both ends can reach net 2 first; only one order of the two ways works.
    const links = [
      { a: 0, b: 2 },
      { a: 1, b: 2 },
      { a: 0, b: 3 },
      { a: 2, b: 4 },
      { a: 3, b: 5 },
      { a: 2, b: 5 },
    ];
    expect(carries(6, links, 0, 1, 4, 5)).toBe(true);
  });

  test('when a net is cut off then it is not reached', () => {
    expect([...reach(4, [{ a: 0, b: 1 }], 0)]).toEqual([1, 1, 0, 0]);
  });
});
