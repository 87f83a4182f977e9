import { expect, test } from 'vitest';
import { alone } from '../../src/diagnosis/alone.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { judgeFindings } from '../../src/diagnosis/senses.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

async function explainedBy(id: string, lines: readonly string[], circuit = 'reversing-lamps') {
  const bench = await workbenchOf(circuit);
  const evidence = gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
  const abnormal = judgeFindings(bench, evidence).flatMap((sense) =>
    sense.abnormal ? [sense.observation] : [],
  );
  const fault = bench.faults.find((one) => one.id === id)!;
  return { ...alone(bench, fault, evidence, abnormal), abnormal };
}

const DIM = ['key on', 'gear reverse', 'prove volts', 'volts GP1 body -3.0/12.6'];

test('when a ground loses volts then a few ohms there are tried before an open circuit', async () => {
  const { explains, severities, abnormal } = await explainedBy('GP1 resistance', DIM);
  expect(explains).toHaveLength(abnormal.length);
  expect(severities[0]).toBeGreaterThan(0.3);
  expect(severities[0]).toBeLessThan(10);
  expect(Math.max(...severities)).toBeGreaterThan(1e7);
});

test('when a fault explains none of it then only the usual severities are tried', async () => {
  const { explains, severities } = await explainedBy('X2.1 resistance', DIM);
  expect(explains).toEqual([]);
  expect(severities).toEqual([1e11, 3]);
});

test('when a feed may have any ohms up to an open circuit then one between is tried as well', async () => {
  const dead = ['E2 dead', 'prove volts', 'volts F2.1 0.00'];
  const { severities } = await explainedBy('SP1/W17 resistance', dead, 'accessory-socket');
  const [open, middle] = severities;
  expect(open).toBeGreaterThan(1e7);
  expect(middle).toBeGreaterThan(100);
  expect(middle).toBeLessThan(1e6);
});
