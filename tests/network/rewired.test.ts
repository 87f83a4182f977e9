/** Bridges and crossed joints against the same network drawn that way from the start. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Solver } from '../../src/network/solver.js';
import type { AppliedFault, Variant } from '../../src/network/solver-types.js';
import { randomRows } from './random-network.js';
import type { Row } from './raw-network.js';
import { battery, lamp, ohms, rawNetwork, relayContact, variantOf } from './raw-network.js';

const METER = { a: 6, b: 1, law: ohms(10e6) };
/** Rows 2 to 12 of a random loom are its joints. */
const joint = fc.integer({ min: 2, max: 12 });
const corner = fc.array(fc.integer({ min: -1, max: 1 }), { minLength: 60, maxLength: 60 });

/** Largest difference of volts, beside the signs and the current through an element in both. */
function apart(
  rows: Row[],
  drawn: Row[],
  faults: AppliedFault[],
  edges: number[],
  element: number,
): number[] {
  const network = rawNetwork(rows);
  const other = rawNetwork(drawn);
  const solver = new Solver(network, [METER]);
  const reference = new Solver(other, [METER]);
  const take = (length: number) => Int8Array.from(edges.slice(0, length));
  const variant: Variant = variantOf(network, { faults, corner: take(rows.length + 1) });
  const corner = new Int8Array(drawn.length + 1);
  corner.set(take(rows.length));
  corner[drawn.length] = edges[rows.length]!;
  const same: Variant = variantOf(other, { corner });
  const [outcome] = solver.solve(variant);
  const [wanted] = reference.solve(same);
  const signs = solver.adjoint(outcome!, variant, 6, 1);
  const wantedSigns = reference.adjoint(wanted!, same, 6, 1);
  expect(signs.signs).toHaveLength(rows.length + 1);
  // Through a milliohm, a current is only known to what the last digits of its volts make of it.
  const near = (a: number, b: number) => Math.abs(a - b) / (1e-3 + Math.abs(b));
  const opposite = rows.filter((_, i) => signs.signs[i]! * wantedSigns.signs[i]! < 0);
  return [
    // Nodes beyond the last that the other drawing uses hang in the air.
    Math.max(...wanted!.volts.map((volts, node) => Math.abs(volts - outcome!.volts[node]!))),
    near(signs.ohms, wantedSigns.ohms),
    opposite.length,
    near(solver.current(outcome!, variant, element), reference.current(wanted!, same, element)),
  ];
}

function expectSame(found: number[]): void {
  for (const difference of found) expect(difference).toBeLessThan(1e-5);
}

describe('rewired networks', () => {
  test('when two nodes of a loom touch, then it is the loom with one more resistor', () => {
    fc.assert(
      fc.property(
        randomRows(0.001, true),
        fc.nat({ max: 13 }),
        fc.nat({ max: 13 }),
        fc.constantFrom(1e-6, 0.02, 3, 1e4, 1e9),
        corner,
        (rows, a, b, value, edges) => {
          const drawn: Row[] = [...rows, ['bridge', a, b, ohms(value)]];
          expectSame(apart(rows, drawn, [{ kind: 'bridge', a, b, ohms: value }], edges, 4));
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });

  test('when joints are crossed, then it is the loom drawn with their far ends exchanged', () => {
    fc.assert(
      fc.property(
        randomRows(0.001, true),
        joint,
        joint,
        joint,
        corner,
        (rows, first, second, third, edges) => {
          const drawn = [...rows];
          const exchange = (one: number, other: number) => {
            const [x, y] = [drawn[one]!, drawn[other]!];
            drawn[one] = [x[0], x[1], y[2], x[3]];
            if (one !== other) drawn[other] = [y[0], y[1], x[2], y[3]];
          };
          exchange(first, second);
          exchange(second, third);
          const faults: AppliedFault[] = [
            { kind: 'crossed', first, second },
            { kind: 'crossed', first: second, second: third },
          ];
          expectSame(apart(rows, drawn, faults, edges, first));
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });

  test('when an element hangs between other nodes, then it is the loom drawn that way', () => {
    fc.assert(
      fc.property(
        randomRows(0.001, true),
        fc.integer({ min: 2, max: 15 }),
        fc.nat({ max: 13 }),
        fc.nat({ max: 13 }),
        corner,
        (rows, element, a, b, edges) => {
          fc.pre(element < rows.length);
          const drawn = rows.map((row, i): Row => (i === element ? [row[0], a, b, row[3]] : row));
          expectSame(apart(rows, drawn, [{ kind: 'rehung', element, a, b }], edges, element));
        },
      ),
      { numRuns: 60, seed: 11 },
    );
  });

  const loads: Row[] = [
    ['battery', 0, 2, battery()],
    ['strap', 0, 1, ohms(0.002)],
    ['X1.1', 2, 3, ohms(0.002)],
    ['X1.2', 4, 5, ohms(0.002)],
    ['H1', 3, 1, lamp()],
    ['H2', 5, 1, lamp()],
  ];

  test('when the pins of a plug are crossed, then the other lamp is lit', () => {
    const network = rawNetwork(loads);
    const [outcome] = new Solver(network).solve(
      variantOf(network, { faults: [{ kind: 'crossed', first: 2, second: 3 }] }),
    );
    expect(outcome!.volts[3]).toBeLessThan(0.1);
    expect(outcome!.volts[5]).toBeGreaterThan(12);
  });

  test('when the plug with crossed pins is apart, then neither lamp is lit', () => {
    const network = rawNetwork(loads);
    const present = Uint8Array.of(1, 1, 0, 0, 1, 1);
    const [outcome] = new Solver(network).solve(
      variantOf(network, { present, faults: [{ kind: 'crossed', first: 2, second: 3 }] }),
    );
    expect(Math.max(outcome!.volts[3]!, outcome!.volts[5]!)).toBeLessThan(0.1);
  });

  test('when a crossed pin is corroded as well, then its ohms go with it', () => {
    const network = rawNetwork(loads);
    const faults: AppliedFault[] = [
      { kind: 'crossed', first: 2, second: 3 },
      { kind: 'series', element: 2, ohms: 7 },
    ];
    const variant = variantOf(network, { faults });
    const solver = new Solver(network);
    const [outcome] = solver.solve(variant);
    expect(solver.current(outcome!, variant, 2)).toBeCloseTo(
      (outcome!.volts[2]! - outcome!.volts[5]!) / 7.002,
      9,
    );
    expect(outcome!.volts[5]).toBeGreaterThan(1);
    expect(outcome!.volts[5]).toBeLessThan(9);
  });

  test('when a live wire touches the feed of a coil, then the relay pulls in', () => {
    const network = rawNetwork([
      ['battery', 0, 2, battery()],
      ['strap', 0, 1, ohms(0.002)],
      ['K1:coil', 3, 1, ohms(80)],
      ['K1:contact', 2, 4, relayContact(2)],
      ['H1', 4, 1, lamp()],
    ]);
    const solver = new Solver(network);
    const states = [0.1, 1e5].map((value) => {
      const [outcome] = solver.solve(
        variantOf(network, { faults: [{ kind: 'bridge', a: 2, b: 3, ohms: value }] }),
      );
      return [outcome!.pulledIn, Math.round(outcome!.volts[4]!)];
    });
    expect(states).toEqual([
      [1, 13],
      [0, 0],
    ]);
  });
});
