/** A sample of the comparison with ngspice; all of it in circuits.long.ts. */
import { beforeAll, expect, test } from 'vitest';
import { CIRCUITS, compareCircuit } from './circuit-readings.js';
import { Ngspice } from './ngspice.js';

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test.each(CIRCUITS)(
  'when a sample of readings is taken on %s, then they agree with ngspice',
  async (name) => {
    const { readings, differing, unsettled } = await compareCircuit(ngspice, name, 40);
    expect(readings).toBeGreaterThan(15);
    expect(differing).toEqual([]);
    expect(unsettled).toEqual([]);
  },
);
