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
