/** Every circuit, in thousands of cases evenly among all positions, faults and severities: the solver against ngspice. */
import { beforeAll, expect, test } from 'vitest';
import { CIRCUITS, compareCircuit } from './circuit-readings.js';
import { Ngspice } from './ngspice.js';
import { MOST_UNSETTLED } from './reading-table.js';

const MOST_CASES = 2000;

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test.each(CIRCUITS)('when readings are taken all over %s, then they agree with ngspice', async (name) => {
  const { readings, worst, differing, unsettled } = await compareCircuit(ngspice, name, MOST_CASES);
  console.log(
    `${name}: ${readings} readings, ${differing.length} differ, ${unsettled.length} without an answer from ngspice; largest difference is ${worst.toExponential(1)} V`,
  );
  expect(differing).toEqual([]);
  expect(unsettled.length).toBeLessThanOrEqual(MOST_UNSETTLED * readings);
});
