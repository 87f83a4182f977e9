/** When none of the pairs usually looked at explains a session, more of them are looked at before it is said that nothing fits. */
import { expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import { judge } from '../../src/diagnosis/verdict.js';
import { foldCase } from '../../src/session/fold.js';
import { diagnosisOf, recordedOf, suspectIds, workbenchOf } from './session-of.js';

test('when two faults read as none of the likely pairs does then the true pair is found all the same', async () => {
  // GP2 open and 1.2 kohm at F1.1, readings as a simulated vehicle gave them.
  const gauges = await workbenchOf('fuel-gauge');
  const seen = [
    ...['key on', 'tank full', 'H1 off', 'prove volts', 'key off', 'tank empty', 'ohms F1.2 body 166.4'],
    ...['key on', 'tank half', 'volts H1.1 H1.31 -0.0001', 'volts X1.2h 0.773', 'volts H1.31 0.772'],
    ...['volts H1.1 0.772', 'volts bat+ GP2 10.83', 'volts GP2 0.772', 'volts bat+ X1.2h 10.83'],
    ...['volts E1.1 0.772', 'key off', 'tank empty', 'ohms X1.2h body 175.1', 'volts bat+ bat- 11.56'],
    ...['key on', 'tank full', 'volts X1.3h 0.204', 'volts F1.1 11.64'],
  ];
  const diagnosis = diagnosisOf(gauges, seen);
  expect(diagnosis.fits).toBe(true);
  expect(suspectIds(diagnosis)).toContain('F1.1 resistance + GP2 resistance');
});

test('when touching wires feed a short through a fuse that neither reaches alone then it may have blown before', async () => {
  const bench = await workbenchOf('truck-24v');
  const pair = ['W12 touching W19', 'W28 short'].map((id) => bench.faults.find((fault) => fault.id === id)!);
  const lines = ['lights on', 'see H2.58 off', 'see H6 off'];
  const evidence = gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
  expect(judge(bench, pair, evidence).fall).toBeUndefined();
});
