/** Comparison with a stated value. */
import { expect } from 'vitest';

/** Passes when `value` is within `percent` of `stated`; the failure shows both. */
export function near(value: number, stated: number, percent: number): void {
  const off = (100 * Math.abs(value - stated)) / Math.abs(stated);
  expect(off, `${value} against ${stated}, allowed ${percent} %`).toBeLessThanOrEqual(percent);
}
