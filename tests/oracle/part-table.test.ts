/** A sample of the table of part types and meters against ngspice; all of it in part-table.long.ts. */
import { beforeAll, expect, test } from 'vitest';
import { partSchemas } from '../../src/circuit/schema-parts.js';
import { meterReadings } from './meter-readings.js';
import { Ngspice } from './ngspice.js';
import { partReadings } from './part-readings.js';
import { compareReadings } from './reading-table.js';
import { tableBenches } from './table-circuits.js';

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test('when a sample of readings is taken at every part type, then they agree with ngspice', async () => {
  const benches = await tableBenches();
  const rows = await compareReadings(
    ngspice,
    benches.flatMap((bench) => partReadings(bench, 59)),
  );
  expect(rows.map(({ row }) => row).sort()).toEqual([...Object.keys(partSchemas), 'wire'].sort());
  expect(rows.flatMap(({ differing, unsettled }) => [...differing, ...unsettled])).toEqual([]);
});

test('when a sample of readings is taken with every instrument, then they agree with ngspice', async () => {
  const benches = await tableBenches();
  const rows = await compareReadings(
    ngspice,
    benches.flatMap((bench) => meterReadings(bench, 101)),
  );
  expect(rows.map(({ row }) => row)).toHaveLength(14);
  expect(rows.flatMap(({ differing, unsettled }) => [...differing, ...unsettled])).toEqual([]);
});
