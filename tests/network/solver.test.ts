import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Network } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { Outcome } from '../../src/network/solver-types.js';
import { randomRows } from './random-network.js';
import type { Row } from './raw-network.js';
import { battery, diode, fuse, lamp, ohms, rawNetwork, relayContact, variantOf } from './raw-network.js';

const ways = (outcomes: readonly Outcome[]) =>
  outcomes
    .map(({ pulledIn, blown, chatters }) => `pulled ${pulledIn} blown ${blown}${chatters ? ' chatters' : ''}`)
    .sort();

describe('relays', () => {
  /** Element 1 is the coil, 2 its contact feeding a lamp. */
  const work = (volts: number, rest: 'open' | 'closed' = 'open'): Network =>
    rawNetwork([
      ['battery', 0, 2, battery(volts)],
      ['K1:coil', 2, 0, ohms(80)],
      ['K1:contact', 2, 3, relayContact(1, rest)],
      ['H1', 3, 0, lamp()],
    ]);

  test('when the coil has full voltage, then the lamp is lit', () => {
    const network = work(12.6);
    const [outcome, ...others] = new Solver(network).solve(variantOf(network));
    expect(others).toEqual([]);
    expect(outcome!.pulledIn).toBe(1);
    expect(outcome!.volts[3]).toBeGreaterThan(12.4);
  });

  test('when the coil has 5 V, then lit and dark are both possible', () => {
    const network = work(5);
    const outcomes = new Solver(network).solve(variantOf(network));
    expect(ways(outcomes)).toEqual(['pulled 0 blown 0', 'pulled 1 blown 0']);
    expect(outcomes.map((outcome) => outcome.volts[3]! > 4).sort()).toEqual([false, true]);
  });

  test('when a relay state is forced, then it alone comes back', () => {
    const network = work(12.6);
    expect(ways(new Solver(network).solve(variantOf(network, { forcedRelays: 0 })))).toEqual([
      'pulled 0 blown 0',
    ]);
  });

  test('when its winding is open, then voltage at the coil does not pull it in', () => {
    const network = work(12.6);
    const faults = [{ kind: 'series' as const, element: 1, ohms: Infinity }];
    expect(ways(new Solver(network).solve(variantOf(network, { faults })))).toEqual(['pulled 0 blown 0']);
  });

  test('when ohms in the coil leave it 4 V, then both states are possible', () => {
    const network = work(12.6);
    const faults = [{ kind: 'series' as const, element: 1, ohms: 170 }];
    expect(ways(new Solver(network).solve(variantOf(network, { faults })))).toHaveLength(2);
  });

  test.each([
    [true, 0, 12],
    [false, 12.6, 0],
  ])('when the contact is stuck closed: %s, then the coil no longer matters', (closed, volts, lit) => {
    const network = work(12.6);
    const present = Uint8Array.of(1, volts > 0 ? 1 : 0, 1, 1);
    const faults = [{ kind: 'stuck' as const, element: 2, closed }];
    const [outcome] = new Solver(network).solve(variantOf(network, { faults, present }));
    expect(Math.round(outcome!.volts[3]! / 12)).toBe(lit / 12);
  });

  test('when a contact closed at rest feeds its own coil, then the relay chatters between its two states', () => {
    const network = rawNetwork([
      ['battery', 0, 2, battery()],
      ['K1:coil', 3, 0, ohms(80)],
      ['K1:contact', 2, 3, relayContact(1, 'closed')],
    ]);
    expect(ways(new Solver(network).solve(variantOf(network)))).toEqual([
      'pulled 0 blown 0 chatters',
      'pulled 1 blown 0 chatters',
    ]);
  });
});

describe('fuses', () => {
  const fed = (...rows: Row[]): Network =>
    rawNetwork([['battery', 0, 2, battery()], ['F1', 2, 3, fuse(10)], ['W1', 3, 4, ohms(0.02)], ...rows]);

  test('when the load is within the rating, then the fuse holds', () => {
    const network = fed(['R', 4, 0, ohms(1.3)]);
    expect(ways(new Solver(network).solve(variantOf(network)))).toEqual(['pulled 0 blown 0']);
  });

  test('when the load is half as much again, then the fuse may hold or blow', () => {
    const network = fed(['R', 4, 0, ohms(0.8)]);
    expect(ways(new Solver(network).solve(variantOf(network)))).toEqual([
      'pulled 0 blown 0',
      'pulled 0 blown 1',
    ]);
  });

  test('when a point behind it is shorted to body, then it blows and the point is dead', () => {
    const network = fed(['H1', 4, 0, lamp()]);
    const faults = [{ kind: 'shunt' as const, node: 4, ohms: 0.01 }];
    const outcomes = new Solver(network).solve(
      variantOf(network, { faults: [...faults, { kind: 'shunt', node: 0, ohms: 0.001 }] }),
    );
    expect(ways(outcomes)).toEqual(['pulled 0 blown 1']);
    expect(Math.abs(outcomes[0]!.volts[4]!)).toBeLessThan(1e-9);
  });

  test('when it blew before, then it stays open although nothing overloads it now', () => {
    const network = fed(['H1', 4, 0, lamp()]);
    const [outcome, ...others] = new Solver(network).solve(variantOf(network, { blown: 1 }));
    expect(others).toEqual([]);
    expect(outcome!.blown).toBe(1);
    expect(Math.abs(outcome!.volts[4]!)).toBeLessThan(1e-9);
  });

  test('when a bridge of wire is fitted instead, then nothing blows', () => {
    const network = fed(['R', 4, 0, ohms(0.1)]);
    const faults = [{ kind: 'law' as const, element: 1, law: ohms(0.001) }];
    expect(ways(new Solver(network).solve(variantOf(network, { faults })))).toEqual(['pulled 0 blown 0']);
  });

  test('when a branch fuse blows behind a main fuse six times its size, then the main fuse holds', () => {
    const network = rawNetwork([
      ['battery', 0, 2, battery()],
      ['F1', 2, 3, fuse(60)],
      ['F2', 3, 4, fuse(10)],
      ['short', 4, 0, ohms(0.1)],
    ]);
    expect(ways(new Solver(network).solve(variantOf(network)))).toEqual(['pulled 0 blown 2']);
  });

  test('when the fuse of a coil blows, then its relay drops', () => {
    const network = rawNetwork([
      ['battery', 0, 2, battery()],
      ['F1', 2, 3, fuse(10)],
      ['K1:coil', 3, 0, ohms(80)],
      ['K1:contact', 3, 4, relayContact(2)],
      ['short', 4, 0, ohms(0.2)],
    ]);
    expect(ways(new Solver(network).solve(variantOf(network)))).toEqual(['pulled 0 blown 1']);
  });

  test('when a drawing has more fuses than can be followed, then it says so', () => {
    const rows = Array.from({ length: 32 }, (_, i): Row => [`F${i}`, 0, 2, fuse(10)]);
    expect(() => new Solver(rawNetwork(rows))).toThrow(/32 fuses.*31/);
  });
});

describe('faults that change a law', () => {
  const network = rawNetwork([
    ['battery', 0, 2, battery()],
    ['R1', 2, 3, ohms(1)],
    ['H1', 3, 0, lamp()],
  ]);
  const lampVolts = (faults: Parameters<typeof variantOf>[1]) =>
    new Solver(network).solve(variantOf(network, faults))[0]!.volts[3]!;

  test('when another lamp is fitted, then it takes its own share', () => {
    const small = lampVolts({ faults: [{ kind: 'law', element: 2, law: lamp(5) }] });
    expect(small).toBeGreaterThan(lampVolts({}) + 0.5);
  });

  test('when the battery is flat, then the network has its volts', () => {
    expect(lampVolts({ faults: [{ kind: 'law', element: 0, law: battery(7, 0.01) }] })).toBeLessThan(7);
  });

  test('when a wire gets the law of a diode, then it is solved as one', () => {
    const found = lampVolts({ faults: [{ kind: 'law', element: 1, law: diode() }] });
    expect(found).toBeLessThan(11.9);
    expect(found).toBeGreaterThan(11.7);
  });

  test('when a wire becomes a second battery, then the volts add up', () => {
    expect(lampVolts({ faults: [{ kind: 'law', element: 1, law: battery(6, 0.01) }] })).toBeGreaterThan(18);
  });
});

describe('instruments', () => {
  const network = rawNetwork([
    ['battery', 0, 2, battery(12, 0.01)],
    ['R1', 2, 3, ohms(100)],
    ['R2', 3, 0, ohms(100)],
  ]);

  test('when an ammeter replaces a cut wire, then it carries the current, counted from a to b', () => {
    const solver = new Solver(network, [{ a: 2, b: 3, law: ohms(0.05) }]);
    const present = Uint8Array.of(1, 0, 1);
    const variant = variantOf(network, { present });
    const [outcome] = solver.solve(variant);
    expect(solver.current(outcome!, variant, 3)).toBeCloseTo(12 / 100.06, 9);
    expect(solver.current(outcome!, variant, 1)).toBe(0);
    expect(solver.current(outcome!, variant, 0)).toBeCloseTo(12 / 100.06, 9);
  });

  test('when an ohmmeter of 1 V behind 1 kΩ stands on a dead resistor, then its volts give the ohms', () => {
    const law = { kind: 'source', volts: 1, lowVolts: 1, highVolts: 1, ohms: 1000 } as const;
    const solver = new Solver(network, [{ a: 0, b: 3, law }]);
    const [outcome] = solver.solve(variantOf(network, { present: Uint8Array.of(0, 1, 1) }));
    expect((1000 * outcome!.volts[3]!) / (1 - outcome!.volts[3]!)).toBeCloseTo(100, 4);
  });
});

describe('corners of tolerance', () => {
  test('when elements move the way their signs say, one or all, then the reading goes that way', () => {
    fc.assert(
      fc.property(
        randomRows(0.1, true, 9),
        fc.infiniteStream(fc.double({ min: -1, max: 1, noNaN: true })),
        (rows, draw) => {
          const network = rawNetwork(rows);
          const solver = new Solver(network);
          const base = variantOf(network);
          const nominal = solver.solve(base)[0]!;
          const value = ({ volts }: Outcome) => volts[4]! - volts[7]!;
          const { signs } = solver.adjoint(nominal, base, 4, 7);
          const up = value(solver.solve({ ...base, corner: signs })[0]!);
          const down = value(solver.solve({ ...base, corner: signs.map((sign) => -sign) })[0]!);
          const element = Math.floor(((draw.next().value! + 1) / 2) * (rows.length - 0.001));
          const single = new Int8Array(rows.length);
          single[element] = signs[element]!;
          const alone = value(solver.solve({ ...base, corner: single })[0]!);
          expect(alone).toBeGreaterThanOrEqual(value(nominal) - 1e-9);
          expect(up).toBeGreaterThanOrEqual(value(nominal) - 1e-9);
          expect(down).toBeLessThanOrEqual(value(nominal) + 1e-9);
        },
      ),
      { numRuns: 150, seed: 7 },
    );
  });

  test('when each element moves to either edge alone, then the reading goes the way its sign says', () => {
    const network = rawNetwork([
      ['battery', 0, 2, battery()],
      ['strap', 0, 1, ohms(0.01, 0.3)],
      ['W1', 2, 3, ohms(0.1, 0.3)],
      ['V1', 3, 4, diode()],
      ['H1', 4, 1, lamp()],
      ['H2', 3, 1, lamp(5)],
      ['meter', 4, 1, ohms(10e6, 0.1)],
    ]);
    const solver = new Solver(network);
    const base = variantOf(network);
    const nominal = solver.solve(base)[0]!;
    const { signs, ohms: seen } = solver.adjoint(nominal, base, 4, 1);
    const moved = [...signs].map((_, i) => {
      const corner = new Int8Array(signs.length);
      const at = (edge: number) => {
        corner[i] = edge;
        const { volts } = solver.solve({ ...base, corner })[0]!;
        return volts[4]! - volts[1]!;
      };
      return Math.sign(at(1) - at(-1));
    });
    expect([...signs]).toEqual(moved);
    // Battery up, wires better, diode lower: more at the lamp; a thirstier lamp or meter: less.
    expect([...signs]).toEqual([1, 1, 1, 1, -1, -1, -1]);
    expect(seen).toBeGreaterThan(0.1);
    expect(seen).toBeLessThan(0.22);
  });
});
