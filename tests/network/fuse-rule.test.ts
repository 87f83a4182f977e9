import { describe, expect, test } from 'vitest';
import { fuseLoad, judgeFuses } from '../../src/network/fuse-rule.js';

// Limits: ISO 8820-3 (from memory): 110 % holds at least 100 h, 200 % opens within 5 s.
describe('fuses', () => {
  test.each([0, 0.5, 1, 1.1])('when a fuse carries %d times its rating, then it holds', (load) => {
    expect(judgeFuses([load])).toMatchObject({ mayHold: true, mayBlow: [] });
  });

  test.each([1.2, 1.5, 1.99])('when a fuse carries %d times its rating, then it may hold or blow', (load) => {
    expect(judgeFuses([load])).toMatchObject({ mayHold: true, mayBlow: [1] });
  });

  test.each([2, 10, 1000])('when a fuse carries %d times its rating, then it blows', (load) => {
    expect(judgeFuses([load])).toMatchObject({ mayHold: false, mayBlow: [1] });
  });

  test('when a small fuse stands behind a large one, then the small one goes and the large one stays', () => {
    expect(judgeFuses([3, 24])).toMatchObject({ mayHold: false, mayBlow: [2] });
  });

  test('when two like fuses are in one path, then either or both may go', () => {
    expect(judgeFuses([20, 0, 15])).toMatchObject({ mayHold: false, mayBlow: [1, 4, 5] });
  });

  // At 600 % it opens within 0.15 s (ISO 8820-3, from memory), in pulses of a tenth of the time within seconds.
  test.each([
    [3, true],
    [6, false],
  ])('when a chattering relay feeds a fuse %d times its rating, then it may hold: %s', (load, holds) => {
    expect(judgeFuses([load]).mayHoldPulses).toBe(holds);
  });

  test('when a drawing has no fuse, then nothing blows', () => {
    expect(judgeFuses([])).toMatchObject({ mayHold: true, mayBlow: [] });
  });
});

describe('electronic fuses', () => {
  const law = { kind: 'fuse', ohms: 0.01, low: 0.01, high: 0.01, amps: 10, resets: 'electronic' } as const;

  // ±20 to ±40 % of the stated limit (drivers' data sheets, from memory).
  test.each([
    [7.5, true, false],
    [10, true, true],
    [15, false, true],
  ])('when the limit is 10 A and %d A flow, then it may hold: %s, may open: %s', (amps, holds, opens) => {
    const { mayHold, mayBlow } = judgeFuses([fuseLoad(law, amps)]);
    expect({ mayHold, mayOpen: mayBlow.length > 0 }).toEqual({ mayHold: holds, mayOpen: opens });
  });
});
