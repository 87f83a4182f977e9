import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { AppliedVariant } from '../../src/network/applied-variant.js';
import { isLinear, lawCurrent, lawSlope } from '../../src/network/laws.js';
import type { AppliedFault } from '../../src/network/solver-types.js';
import { LEAK_SIEMENS, ReducedNetwork } from '../../src/network/reduced-network.js';
import { Solver } from '../../src/network/solver.js';
import { denseVolts } from './dense.js';
import { randomRows } from './random-network.js';
import type { Row } from './raw-network.js';
import { battery, diode, lamp, motor, ohms, rawNetwork, variantOf } from './raw-network.js';

/** Solves with a chosen number of plain steps before the slower search. */
function searched(rows: readonly Row[], plainSteps: number): Float64Array {
  const network = rawNetwork(rows);
  const elements = new AppliedVariant(network, []);
  elements.apply(variantOf(network), 0, 0);
  const curved = network.elements.flatMap(({ law }, i) => (isLinear(law) ? [] : [i]));
  const volts = new ReducedNetwork(network.nodeNames.length, elements, curved, plainSteps).solve(undefined);
  if (typeof volts === 'number') throw new Error(`${network.elements[volts]!.site} did not settle`);
  return volts;
}

/** Worst sum of currents at a node, as a part of the largest current there. */
function worstImbalance(rows: readonly Row[], volts: Float64Array): number {
  const sum = new Float64Array(volts.length);
  const most = new Float64Array(volts.length).fill(1e-9);
  // Volts carry 16 digits, so a current through S siemens is known to about S x 1e-14 A: 1e-6 of the least counted here.
  const flow = (a: number, b: number, amps: number, siemens: number) => {
    sum[a]! -= amps;
    sum[b]! += amps;
    for (const node of [a, b]) most[node] = Math.max(most[node]!, Math.abs(amps), siemens * 1e-8);
  };
  for (const [, a, b, law] of rows) {
    const across = volts[a]! - volts[b]!;
    if (a !== b) flow(a, b, lawCurrent(law, across), lawSlope(law, across));
  }
  volts.forEach((value, node) => flow(node, 1, LEAK_SIEMENS * (value - volts[1]!), LEAK_SIEMENS));
  return sum.reduce(
    (worst, value, node) => (node === 0 ? worst : Math.max(worst, Math.abs(value) / most[node]!)),
    0,
  );
}

const solve = (rows: readonly Row[], faults: readonly AppliedFault[] = [], start?: number[]) => {
  const network = rawNetwork(rows);
  const given = start && { volts: Float64Array.from(start), pulledIn: 0, blown: 0, chatters: false };
  return new Solver(network).solve(variantOf(network, { faults, start: given }))[0]!.volts;
};

describe('filaments', () => {
  const fed = (volts: number): Row[] => [
    ['battery', 0, 2, battery(volts, 0.05)],
    ['strap', 0, 1, ohms(0.002)],
    ['W1', 2, 3, ohms(0.2)],
    ['H1', 3, 4, lamp()],
    ['W2', 4, 1, ohms(0.02)],
  ];

  test('when the battery has any voltage from 0 to 30 V, then the lamp settles where its law and the wires agree', () => {
    for (let volts = 0; volts <= 30; volts += 0.1) {
      const found = solve(fed(volts));
      const across = found[3]! - found[4]!;
      // One loop: what the battery gives is what lamp, wires and strap take.
      expect(Math.abs(across + 0.272 * lawCurrent(lamp(), across) - volts)).toBeLessThan(1e-8);
    }
  });

  test('when the wanted voltage is far from the warm start, then the same volts come out', () => {
    for (const start of [0, 1e-9, 0.3, 0.6, 3, 30, -12]) {
      for (const volts of [0, 0.01, 0.7, 6, 12.6, 24]) {
        const found = solve(fed(volts), [], [0, 0, volts, start, 0]);
        expect(found[3]).toBeCloseTo(solve(fed(volts))[3]!, 8);
      }
    }
  });

  test('when the feed of a lit lamp opens, then the lamp is at zero and so is its feed', () => {
    const found = solve(fed(12.6), [{ kind: 'series', element: 2, ohms: Infinity }], [0, 0, 12.6, 12.5, 0]);
    expect(Math.abs(found[3]! - found[4]!)).toBeLessThan(1e-9);
  });

  test('when ohms stand in series inside the filament, then it is as if they stood before it', () => {
    for (const extra of [0.001, 0.5, 10, 1e3, 1e6, Infinity]) {
      const inside = solve(fed(12.6), [{ kind: 'series', element: 3, ohms: extra }]);
      const before = solve(fed(12.6), [{ kind: 'series', element: 2, ohms: extra }]);
      expect(inside[4]! - inside[1]!).toBeCloseTo(before[4]! - before[1]!, 8);
    }
  });

  test('when two lamps are in series, then each takes half', () => {
    const found = solve([
      ['battery', 0, 2, battery(12, 1e-6)],
      ['H1', 2, 3, lamp()],
      ['H2', 3, 0, lamp()],
    ]);
    expect(found[3]).toBeCloseTo(6, 5);
  });

  test('when a random network has lamps and motors, then it agrees with dense fixed-point steps', () => {
    fc.assert(
      fc.property(randomRows(0.1, true, 9), (rows) => {
        const lit = rows.filter(([, , , law]) => law.kind !== 'diode');
        const [ours, reference] = [solve(lit), denseVolts(lit)];
        reference.forEach((value, node) => expect(Math.abs(ours[node]! - value)).toBeLessThan(1e-5));
      }),
      { numRuns: 30, seed: 7 },
    );
  });
});

describe('diodes', () => {
  const through = (volts: number, a: number, b: number): Row[] => [
    ['battery', 0, 2, battery(volts, 0.01)],
    ['V1', a, b, diode(0.7)],
    ['load', 3, 0, ohms(10)],
  ];

  test('when a diode points forward, then the load misses only its drop', () => {
    const found = solve(through(12, 2, 3));
    expect(found[3]).toBeCloseTo(((12 - 0.7) * 10) / 10.06, 6);
  });

  test('when a diode points backward, then the load sees nanoamperes', () => {
    expect(solve(through(12, 3, 2))[3]).toBeCloseTo(12 * 10 * 1e-9, 9);
  });

  test('when the supply is below the drop, then a meter of 10 MΩ still reads part of it', () => {
    const rows: Row[] = [...through(0.5, 2, 3).slice(0, 2), ['meter', 3, 0, ohms(10e6)]];
    expect(solve(rows)[3]).toBeCloseTo((0.5 * 10) / 1010, 4);
  });

  test('when four diodes form a bridge, then the load has the same sign either way round', () => {
    for (const [a, b] of [
      [0, 2],
      [2, 0],
    ] as const) {
      const found = solve([
        ['battery', a, b, battery(12, 0.01)],
        ['V1', 0, 3, diode()],
        ['V2', 2, 3, diode()],
        ['V3', 4, 0, diode()],
        ['V4', 4, 2, diode()],
        ['load', 3, 4, ohms(10)],
      ]);
      expect(found[3]! - found[4]!).toBeCloseTo(((12 - 1.4) * 10) / 10.11, 6);
    }
  });
});

describe('settling', () => {
  test('when lamps, motors and diodes are mixed at random, then currents balance at every node', () => {
    fc.assert(
      fc.property(randomRows(0.001, true, 20), (rows) => {
        expect(worstImbalance(rows, solve(rows))).toBeLessThan(1e-6);
      }),
      { numRuns: 500, seed: 7 },
    );
  });

  test('when any element has any ohms in series, then it is as if a resistor stood before it', () => {
    const power = fc.double({ min: -3, max: 9, noNaN: true });
    fc.assert(
      fc.property(randomRows(0.001, true, 14), fc.nat(), power, (rows, pick, ohmsPower) => {
        const element = pick % rows.length;
        const series = 10 ** ohmsPower;
        const inside = solve(rows, [{ kind: 'series', element, ohms: series }]);
        const before = rows.map((row, i): Row => (i === element ? [row[0], 14, row[2], row[3]] : row));
        const apart = solve([...before, ['added', rows[element]![1], 14, ohms(series)]]);
        // The node between the two has a leak of its own: 1e-11 S at some megohms.
        inside.forEach((value, node) => expect(Math.abs(value - apart[node]!)).toBeLessThan(5e-4));
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  test('when only the slow sure search is used, then it finds the same volts', () => {
    fc.assert(
      fc.property(randomRows(0.01, true, 12), (rows) => {
        const [quick, sure] = [searched(rows, 20), searched(rows, 0)];
        quick.forEach((value, node) => expect(sure[node]).toBeCloseTo(value, 6));
      }),
      { numRuns: 200, seed: 7 },
    );
  });

  test('when a value is not a number, then the failure names the element and no number comes out', () => {
    const rows: Row[] = [
      ['battery', 0, 2, battery()],
      ['W1', 2, 3, ohms(1)],
      ['H1', 3, 0, lamp(NaN)],
      ['M1', 3, 0, motor()],
    ];
    expect(() => solve(rows)).toThrow(/no steady voltage across/);
  });
});
