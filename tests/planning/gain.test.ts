import { expect, test } from 'vitest';
import { GainMeter } from '../../src/planning/gain.js';

/** Two repairs, equally likely, of one version each. */
const meter = new GainMeter(
  [
    { version: 0, group: 0, weight: 1 },
    { version: 1, group: 1, weight: 1 },
  ],
  2,
);
const spans = (...bands: readonly (readonly [number, number])[]) => ({
  from: Float64Array.from(bands, ([from]) => from),
  to: Float64Array.from(bands, ([, to]) => to),
});

test('when two equal repairs read apart then the reading tells one bit and rules one out', () => {
  const apart = spans([3, 5], [6, 9]);
  expect(meter.gain(apart)).toBeCloseTo(1, 12);
  expect(meter.separates(apart)).toBe(true);
});

test('when both read the same then the reading tells nothing', () => {
  const same = spans([3.2, 5.4], [3.2, 5.4]);
  expect(meter.gain(same)).toBeCloseTo(0, 12);
  expect(meter.separates(same)).toBe(false);
});

test('when the bands overlap by half then half the readings tell', () => {
  const half = spans([2, 4], [3, 5]);
  expect(meter.gain(half)).toBeCloseTo(0.5, 12);
  expect(meter.separates(half)).toBe(false);
});

test('when a meter is used again then nothing of the last test is left in it', () => {
  meter.gain(spans([0, 40], [7, 9]));
  expect(meter.gain(spans([3, 5], [6, 9]))).toBeCloseTo(1, 12);
});

test('when versions of one repair read apart then no repair is ruled out', () => {
  const one = new GainMeter(
    [
      { version: 0, group: 0, weight: 1 },
      { version: 1, group: 0, weight: 1 },
    ],
    1,
  );
  expect(one.gain(spans([1, 2], [5, 6]))).toBe(0);
  expect(one.separates(spans([1, 2], [5, 6]))).toBe(false);
});

test('when a version may read either way whatever comes then no reading speaks for or against it', () => {
  const three = new GainMeter(
    [
      { version: 0, group: 0, weight: 1 },
      { version: 1, group: 1, weight: 1 },
      { version: 2, group: 2, weight: 2 },
    ],
    3,
  );
  const apart = spans([3, 5], [6, 9], [3, 9]);
  // Half of the weight is told apart by one bit; the other half stays as it was.
  expect(three.gain({ ...apart, unsure: Uint8Array.of(0, 0, 1) })).toBeCloseTo(0.5, 12);
  expect(three.gain({ ...apart, unsure: Uint8Array.of(1, 1, 1) })).toBe(0);
  expect(three.gain(apart)).toBeGreaterThan(0.5);
});
