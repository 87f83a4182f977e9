import fc from 'fast-check';
import { expect, test } from 'vitest';
import { drawPartValues } from '../../src/exercise/part-values.js';
import { random } from '../../src/exercise/random.js';
import { workbenchOf } from '../diagnosis/session-of.js';

test('when part values are drawn then each lies inside its tolerance, at its edge for a corner', async () => {
  const { network } = await workbenchOf('stop-tail');
  fc.assert(
    fc.property(fc.integer(), fc.boolean(), (seed, corners) => {
      const drawn = drawPartValues(network, random(seed), corners);
      network.elements.forEach(({ law }, i) => {
        const other = drawn.network.elements[i]!.law;
        if (!('low' in law) || !('ohms' in other)) return;
        expect(other.ohms).toBeGreaterThanOrEqual(law.low);
        expect(other.ohms).toBeLessThanOrEqual(law.high);
        if (corners) expect([law.low, law.high]).toContain(other.ohms);
      });
    }),
    { numRuns: 20 },
  );
});

test('when a seed is the same then the vehicle is the same', async () => {
  const { network } = await workbenchOf('stop-tail');
  const [one, other] = [5, 5].map((seed) => drawPartValues(network, random(seed), false).network.elements);
  expect(other).toEqual(one);
  expect(drawPartValues(network, random(6), false).network.elements).not.toEqual(one);
});
