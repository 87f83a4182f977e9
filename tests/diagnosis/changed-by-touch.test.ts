/** What has to come good and go bad in step with every swap is less likely than what sits in the part that was swapped. */
import { beforeAll, expect, test } from 'vitest';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { diagnosisOf, workbenchOf } from './session-of.js';

let bench: Workbench;
beforeAll(async () => {
  bench = await workbenchOf('horn');
});

const found = [
  ...['B1 silent when horn button pressed', 'K1 clicks when horn button pressed', 'prove volts'],
  'volts K1.87 0.02 when horn button pressed',
];
const swapped = ['knowngood K1', 'B1 sounds when horn button pressed'];
const back = ['in K1', 'volts K1.87 0.02 when horn button pressed'];

function ratio(lines: readonly string[]): number {
  const { suspects } = diagnosisOf(bench, lines);
  const share = (id: string) => suspects.find(({ hypothesis }) => hypothesis === id)?.share ?? 0;
  return share('K1.30 resistance') / share('K1:30-87 resistance');
}

test('when the fault follows the relay then each swap speaks more against its socket', () => {
  const before = ratio(found);
  const once = ratio([...found, ...swapped]);
  const twice = ratio([...found, ...swapped, ...back]);
  const again = ratio([...found, ...swapped, ...back, ...swapped]);
  expect(once).toBeLessThan(0.5 * before);
  expect(twice).toBeLessThan(once);
  expect(again).toBeLessThan(0.5 * once);
  // It may have happened all the same.
  expect(again).toBeGreaterThan(0);
});

test('when a socket was cleaned and reads well then nothing speaks against the socket', () => {
  const { suspects } = diagnosisOf(bench, [
    ...found,
    'clean K1.30',
    'volts K1.87 12.5 when horn button pressed',
  ]);
  const socket = suspects.find(({ hypothesis }) => hypothesis === 'K1.30 resistance')!;
  expect(socket.soft.map(({ words }) => words)).not.toContain(
    'it would have had to change when it was touched',
  );
});

test('when it stayed silent after a wiggle and sounds after another then only the other was disturbed since', () => {
  const silent = 'B1 silent when horn button pressed';
  const { suspects } = diagnosisOf(bench, [
    ...found,
    'wiggle K1.30',
    silent,
    'wiggle K1.87',
    'B1 sounds when horn button pressed',
  ]);
  const at = (site: string) => suspects.find(({ hypothesis }) => hypothesis === `${site} resistance`)!;
  expect([at('K1.30').touched, at('K1.87').touched]).toEqual([false, true]);
  const against = 'the complaint went away though this was not touched';
  expect(at('K1.30').soft.map(({ words }) => words)).toContain(against);
  expect(at('K1.87').soft.map(({ words }) => words)).toContain(
    'the complaint went away after this was touched',
  );
});
