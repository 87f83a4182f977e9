import { expect, test } from 'vitest';
import { Instrument } from '../../src/exercise/instrument.js';
import { random } from '../../src/exercise/random.js';
import { voltsError } from '../../src/network/meters.js';
import { lastValue, runOf, type } from './exercise-case.js';

test('when a reading is repeated then the meter keeps its own error, which no mean takes away', () => {
  const TRUE = 11.337;
  const means = Array.from({ length: 40 }, (_, seed) => {
    const meter = new Instrument(random(seed));
    const draw = random(1000 + seed);
    const shown = Array.from({ length: 400 }, () => meter.show('volts', TRUE, draw).value);
    return shown.reduce((sum, value) => sum + value, 0) / shown.length - TRUE;
  });
  // Noise of a count or two, averaged over 400 readings, is far below a tenth of a count.
  expect(means.filter((error) => Math.abs(error) > 0.005).length).toBeGreaterThan(25);
  expect(means.some((error) => error > 0.005)).toBe(true);
  expect(means.some((error) => error < -0.005)).toBe(true);
});

test('when any meter shows volts then they lie inside what the program allows for', () => {
  for (let seed = 0; seed < 200; seed++) {
    const draw = random(seed);
    const meter = new Instrument(draw);
    const volts = 28 * draw();
    const { value, step } = meter.show('volts', volts, draw);
    expect(Math.abs(value - volts)).toBeLessThanOrEqual(voltsError(value, step));
  }
});

test('when the same test is done ten times on a vehicle then it differs in the last digits only', async () => {
  const run = await runOf();
  const values = new Set<number>();
  for (let i = 0; i < 10; i++) {
    await type(run, 'volts bat+');
    values.add((lastValue(run) as { value: number }).value);
  }
  expect(values.size).toBeLessThan(6);
  expect(Math.max(...values) - Math.min(...values)).toBeLessThan(0.05);
});
