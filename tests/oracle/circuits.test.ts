/** A sample of the comparison with ngspice; all of it in circuits.long.ts. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import { CIRCUITS, compareCircuit } from './circuit-readings.js';
import { Ngspice } from './ngspice.js';

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test('when a circuit is added to circuits/, then it is compared too', () => {
  const files = readdirSync(join(import.meta.dirname, '../../circuits'));
  expect(files.map((file) => file.replace('.yaml', '')).sort()).toEqual(CIRCUITS);
});

test.each(CIRCUITS)(
  'when a sample of readings is taken on %s, then they agree with ngspice',
  async (name) => {
    const { readings, differing, unsettled } = await compareCircuit(ngspice, name, 60);
    expect(readings).toBeGreaterThan(30);
    expect(differing).toEqual([]);
    expect(unsettled).toEqual([]);
  },
);
