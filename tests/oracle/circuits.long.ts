/** Every circuit, control position, healthy and every single fault at three severities: the solver against ngspice. */
import { beforeAll, expect, test } from 'vitest';
import { CIRCUITS, compareCircuit } from './circuit-readings.js';
import { Ngspice } from './ngspice.js';

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test.each(CIRCUITS)('when every reading is taken on %s, then it agrees with ngspice', async (name) => {
  const { readings, worst, differing } = await compareCircuit(ngspice, name, 1);
  console.log(
    `${name}: ${readings} readings, ${differing.length} differ; largest difference is ${worst.toExponential(1)} V`,
  );
  expect(differing).toEqual([]);
});
