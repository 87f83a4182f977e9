/** Every part type with every fault mode, and every instrument, against ngspice: prints the table. A few minutes. */
import { beforeAll, expect, test } from 'vitest';
import { meterReadings } from './meter-readings.js';
import { Ngspice } from './ngspice.js';
import { partReadings } from './part-readings.js';
import { compareReadings, MOST_UNSETTLED, tableText } from './reading-table.js';
import { tableBenches } from './table-circuits.js';

let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

test('when every part type and every instrument is read, then all agree with ngspice', async () => {
  const benches = await tableBenches();
  const rows = [
    ...(await compareReadings(
      ngspice,
      benches.flatMap((bench) => partReadings(bench, 1)),
    )),
    ...(await compareReadings(
      ngspice,
      benches.flatMap((bench) => meterReadings(bench, 3)),
    )),
  ];
  console.log(tableText(rows));
  expect(rows.flatMap(({ differing }) => differing)).toEqual([]);
  const unsettled = rows.flatMap((row) => row.unsettled);
  if (unsettled.length > 0) console.log(`No answer from ngspice:\n${unsettled.join('\n')}`);
  const total = rows.reduce((sum, { readings }) => sum + readings, 0);
  expect(unsettled.length).toBeLessThanOrEqual(MOST_UNSETTLED * total);
});
