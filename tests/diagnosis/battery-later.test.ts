/** Battery volts measured late in a session tell what the lamps had at its beginning. */
import { expect, test } from 'vitest';
import { diagnosisOf, workbenchOf } from './session-of.js';

const complaint = ['lights on', 'H5 dim'];
const amiss = async (...lines: string[]) => {
  const bench = await workbenchOf('fog-lamps');
  return diagnosisOf(bench, [...complaint, ...lines]).findings[0]!.abnormal;
};

test('when a lamp is dim and its battery may be weak then it may be in order', async () => {
  expect(await amiss()).toBe(false);
});

test('when a weak battery might explain the complaint then its volts are asked for, once', async () => {
  const bench = await workbenchOf('fog-lamps');
  expect(diagnosisOf(bench, complaint).asks.join()).toMatch(/#2 could also come from a weak battery/);
  expect(diagnosisOf(bench, [...complaint, 'prove volts', 'volts bat+ 12.92']).asks).toEqual([]);
  expect(diagnosisOf(bench, ['lights on', 'H5 lit']).asks).toEqual([]);
});

test('when the battery is measured later and is well then the lamp was out of order all along', async () => {
  expect(await amiss('prove volts', 'volts bat+ 12.92')).toBe(true);
});

test('when only whole volts were written down then finer ones count', async () => {
  const rough = await amiss('prove volts', 'volts bat+ 12');
  expect(rough).toBe(false);
  expect(await amiss('prove volts', 'volts bat+ 12', 'volts bat+ 12.92')).toBe(true);
});

test('when another battery was fitted in between then it tells nothing of the one before', async () => {
  expect(await amiss('new G1', 'prove volts', 'volts bat+ 12.92')).toBe(false);
});
