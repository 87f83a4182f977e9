import { describe, expect, test } from 'vitest';
import { settleRelays } from '../../src/network/relay-states.js';

const band = { pullInVolts: 8, dropOutVolts: 2 };

function settle(volts: (state: number) => number[], start = 0) {
  const { stable, chatter } = settleRelays(
    volts(0).map(() => band),
    volts,
    start,
  );
  return {
    stable: [...stable].sort((a, b) => a - b),
    chatter: [...new Set(chatter.flat())].sort((a, b) => a - b),
  };
}

describe('states of relays', () => {
  test('when the coil has no voltage, then it stays dropped', () => {
    expect(settle(() => [0])).toEqual({ stable: [0], chatter: [] });
  });

  test('when the coil has full voltage, then it is pulled in and nothing else', () => {
    expect(settle(() => [12])).toEqual({ stable: [1], chatter: [] });
  });

  test.each([2, 5, 8])(
    'when the coil has %d V, between drop-out and pull-in, then both states are possible',
    (volts) => {
      expect(settle(() => [volts])).toEqual({ stable: [0, 1], chatter: [] });
    },
  );

  test('when its own contact cuts the coil, then it chatters', () => {
    expect(settle((state) => [state ? 0 : 12])).toEqual({ stable: [], chatter: [0, 1] });
  });

  test('when its own contact cuts a coil that stands in its band, then it may hold or chatter', () => {
    expect(settle((state) => [state ? 0 : 6])).toEqual({ stable: [0], chatter: [0, 1] });
  });

  test('when pulling in lowers the coil voltage only a little, then that is no chatter', () => {
    expect(settle((state) => [state ? 6.8 : 7])).toEqual({ stable: [0, 1], chatter: [] });
  });

  test('when the load drags a weak battery below drop-out, then the relay chatters', () => {
    expect(settle((state) => [state ? 1.5 : 9])).toEqual({ stable: [], chatter: [0, 1] });
  });

  test('when its own contact holds the coil, then the start decides', () => {
    const latch = (state: number) => [state ? 12 : 0];
    expect(settle(latch, 0).stable).toEqual([0]);
    expect(settle(latch, 1).stable).toEqual([1]);
  });

  test('when one relay feeds the next, then they follow each other', () => {
    expect(settle((state) => [12, state & 1 ? 12 : 0, state & 2 ? 12 : 0])).toEqual({
      stable: [7],
      chatter: [],
    });
  });

  test('when each of two relays cuts the other, then either may win, and neither both nor none', () => {
    expect(settle((state) => [state & 2 ? 0 : 12, state & 1 ? 0 : 12])).toEqual({
      stable: [1, 2],
      chatter: [],
    });
  });

  test('when three relays in a ring each cut the next, then none rests', () => {
    const ring = (state: number) => [0, 1, 2].map((i) => ((state >> ((i + 2) % 3)) & 1 ? 0 : 12));
    const { stable, chatter } = settle(ring);
    expect(stable).toEqual([]);
    expect(chatter.length).toBeGreaterThan(2);
  });

  test('when ten relays all have full voltage, then one step settles them', () => {
    let asked = 0;
    const all = (): number[] => {
      asked++;
      return new Array<number>(10).fill(12);
    };
    const { stable } = settleRelays(new Array(10).fill(band), all, 0);
    expect(stable).toEqual([1023]);
    expect(asked).toBe(2);
  });
});

describe('coils with a manner of their own', () => {
  const free = { pullInVolts: Infinity, dropOutVolts: -Infinity } as const;
  const sorted = (coils: Parameters<typeof settleRelays>[0], volts: (state: number) => number[]) => {
    const { stable, chatter } = settleRelays(coils, volts, 0);
    return { stable: [...stable].sort((a, b) => a - b), chatter: [...new Set(chatter.flat())] };
  };

  test('when one alternates, then both its states are found and that is no chatter', () => {
    const coils = [{ ...free, manner: 'alternating' as const }];
    expect(sorted(coils, (state) => [state ? 0 : 12])).toEqual({ stable: [0, 1], chatter: [] });
  });

  test.each([
    [5, [0, 1]],
    [15, [0]],
  ])(
    'when one may pull in below 10 V and has %d V while dropped, then its states are %j',
    (volts, stable) => {
      const coils = [{ pullInVolts: 10, dropOutVolts: -Infinity, manner: 'under' as const }];
      expect(sorted(coils, (state) => [state ? 0 : volts])).toEqual({ stable, chatter: [] });
    },
  );

  test('when one had pulled in for want of volts and another brings them, then it must drop out again', () => {
    const coils = [band, { pullInVolts: 10, dropOutVolts: -Infinity, manner: 'under' as const }];
    // The first pulls in once the second has; with the first in, the second would have 15 V.
    const volts = (state: number) => [state & 2 ? 12 : 0, state & 2 ? 0 : state & 1 ? 15 : 5];
    expect(sorted(coils, volts).stable).not.toContain(3);
  });

  test('when nothing it moves can close beside another coil, then its whims are not followed', () => {
    const coils = [band, { ...free, manner: 'alternating' as const, beside: [{ pulled: 1, dropped: 0 }] }];
    expect(sorted(coils, () => [0, 0]).stable).toEqual([0]);
    expect(sorted(coils, () => [12, 0]).stable).toEqual([1, 3]);
  });
});

describe('what may stay pulled in while something chatters', () => {
  const staying = (volts: (state: number) => number[]): readonly number[] =>
    settleRelays(
      volts(0).map(() => band),
      volts,
      0,
    ).staying;

  test('when a relay cuts its own coil then the one beside it may stay', () => {
    expect(staying((state) => [12, state & 2 ? 0 : 12])).toEqual([1]);
  });

  test('when the first one feeds the second, which drags the battery down, then neither stays', () => {
    expect(staying((state) => [state & 2 ? 1 : 12, state & 1 ? 12 : 0])).toEqual([0]);
  });

  test('when either of two drags the other down then each may stay while the other one rattles', () => {
    const masks = staying((state) => [state & 1 ? 0 : 12, state & 2 ? 0 : 12]);
    expect([...masks].sort()).toEqual([1, 2]);
  });

  test('when nothing chatters then anything may stay', () => {
    expect(staying(() => [12])).toEqual([-1]);
  });
});
