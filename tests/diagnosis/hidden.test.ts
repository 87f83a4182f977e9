/** What an open circuit may hide: only what would matter once it is repaired, and nothing that a reading would have shown. */
import { expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import type { Hidden } from '../../src/diagnosis/diagnosis-types.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

const OPEN_PIN = [
  'key on, gear reverse',
  'fails H1 H2',
  'volts X2.1h 12.4/12.4',
  'volts X2.1c 0.0/12.4',
] as const;

async function hiddenAfter(...lines: readonly string[]): Promise<readonly Hidden[]> {
  const bench = await workbenchOf('reversing-lamps');
  return diagnose(bench, foldCase(bench.circuit, recordedOf(bench, lines)), { fit: true }).hidden;
}

const idsOf = (hidden: readonly Hidden[]): readonly string[] =>
  hidden.flatMap(({ faults }) => faults.map(({ id }) => id));

test('when a pin in the feed is open then both filaments behind it lead, followed by shorts that would blow the fuse', async () => {
  const hidden = await hiddenAfter(...OPEN_PIN);
  expect(hidden.map(({ behind }) => behind.id)).toEqual(['X2.1 resistance']);
  const ids = idsOf(hidden);
  expect(ids.slice(0, 2)).toEqual(['H1:1 lead open', 'H2:1 lead open']);
  expect(ids).toContain('S2.1 short');
  expect(ids.length).toBeLessThanOrEqual(8);
  expect(hidden[0]!.advice).toContain('ohms to ground');
  expect(hidden[0]!.advice).toContain('Repeat every failed condition');
});

test('when a wire lies on the ground side then a short of it to body is not named: it does no harm', async () => {
  const ids = idsOf(await hiddenAfter(...OPEN_PIN));
  // H1.31, W11 (H1.31 to X3.2c) and W12 (X3.2h to GP2) lie behind the left lamp; H2.31, W15 and W16 behind the right one.
  for (const ground of ['H1.31', 'H2.31', 'W11', 'W12', 'W15', 'W16'])
    expect(ids).not.toContain(`${ground} short`);
});

test('when one lamp comes back after the repair then only the other filament is still named, and no short', async () => {
  const hidden = await hiddenAfter(...OPEN_PIN, 'repair X2 cleaned and seated both pins 15 min', 'works H2');
  expect(idsOf(hidden)).toEqual(['H1:1 lead open']);
  expect(hidden[0]!.advice).not.toContain('ohms to ground');
});

test('when a lamp was replaced by a new one then its old filament is not named', async () => {
  const ids = idsOf(await hiddenAfter(...OPEN_PIN, 'new H1'));
  expect(ids).not.toContain('H1:1 lead open');
  expect(ids).toContain('H2:1 lead open');
});
