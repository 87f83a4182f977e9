import { expect, test } from 'vitest';
import { complaints } from '../../src/exercise/complaint.js';
import { circuitNames } from '../trials/trials.js';
import { workbenchOf } from '../diagnosis/session-of.js';

const DIFFERENCE = { faults: [], added: [], absent: [], blown: 0 };

test.each(circuitNames())('when %s is healthy then nobody complains', async (circuit) => {
  expect(complaints(await workbenchOf(circuit), DIFFERENCE)).toEqual([]);
});

test('when a lamp of a flashing side is broken then that lamp is complained of, where it should flash', async () => {
  const bench = await workbenchOf('turn-hazard');
  const broken = bench.faults.find(({ id }) => id === 'H1:1 lead open')!;
  const found = complaints(bench, { ...DIFFERENCE, faults: [broken.apply(0)] });
  expect(new Set(found.map(({ load }) => load))).toEqual(new Set(['H1']));
  expect(found.every(({ good }) => good === 'first')).toBe(true);
});

test('when a lamp is pulsed to part of its light then less than full is usual for it, and a steady one is full', async () => {
  const bench = await workbenchOf('daytime-module');
  const usualOf = (id: string, load: string) => {
    const fault = bench.faults.find((one) => one.id === id)!;
    const found = complaints(bench, { ...DIFFERENCE, faults: [fault.apply(fault.scale.edges.at(-1)!)] });
    return found.filter((one) => one.load === load).map(({ usual }) => usual);
  };
  // The file has the daytime lamps fed 60 % of the time: the heat of 0.77 of the volts, and a little less for the eye.
  for (const usual of usualOf('F2.2 resistance', 'H1')) expect(usual).toBeCloseTo(0.9 * Math.sqrt(0.6), 1);
  expect(usualOf('F2.2 resistance', 'H1').length).toBeGreaterThan(0);
  expect(Math.min(...usualOf('S2:58-31 resistance', 'H2'))).toBeGreaterThan(0.9);
});
