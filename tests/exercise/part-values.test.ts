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

test('when part values are drawn then an alternator holds its own volts, and the battery keeps its law', async () => {
  const { network, source } = await workbenchOf('charging');
  const stator = network.elements[network.sites.get('G2:stator')!]!;
  if (stator.law.kind !== 'source') throw new Error('a stator is a source');
  const { lowVolts, highVolts } = stator.law;
  const held = Array.from({ length: 20 }, (_, seed) => {
    const { elements } = drawPartValues(network, random(seed), seed % 4 === 0).network;
    expect(elements[source]).toEqual(network.elements[source]);
    const { law } = elements[stator.index]!;
    return law.kind === 'source' ? law.volts : NaN;
  });
  expect(held.every((volts) => volts >= lowVolts && volts <= highVolts)).toBe(true);
  expect(new Set(held).size).toBeGreaterThan(10);
});
