import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Solver } from '../../src/network/solver.js';
import { denseVolts } from './dense.js';
import { randomRows } from './random-network.js';
import type { Row } from './raw-network.js';
import { battery, ohms, rawNetwork, variantOf } from './raw-network.js';

function volts(rows: readonly Row[], changes = {}): Float64Array {
  const network = rawNetwork(rows);
  return new Solver(network).solve(variantOf(network, changes))[0]!.volts;
}

describe('elimination of nodes', () => {
  test('when a random network has fixed ohms only, then it agrees with Gaussian elimination', () => {
    fc.assert(
      fc.property(randomRows(0.1, false), (rows) => {
        const [ours, reference] = [volts(rows), denseVolts(rows)];
        reference.forEach((value, node) => expect(Math.abs(ours[node]! - value)).toBeLessThan(1e-6));
      }),
      { numRuns: 200, seed: 7 },
    );
  });

  test('when the parts are listed in another order, then the volts are the same', () => {
    fc.assert(
      fc.property(randomRows(0.001, false), (rows) => {
        const [ours, turned] = [volts(rows), volts([...rows].reverse())];
        ours.forEach((value, node) => expect(turned[node]!).toBeCloseTo(value, 9));
      }),
      { numRuns: 50, seed: 7 },
    );
  });

  // Kirchhoff: a divider of three equal resistors across an ideal 9 V.
  test('when three equal resistors share 9 V, then each takes 3 V', () => {
    const found = volts([
      ['battery', 0, 2, battery(9, 1e-6)],
      ['R1', 2, 3, ohms(1000)],
      ['R2', 3, 4, ohms(1000)],
      ['R3', 4, 0, ohms(1000)],
    ]);
    expect(found[3]).toBeCloseTo(6, 6);
    expect(found[4]).toBeCloseTo(3, 6);
  });

  test('when an unbalanced bridge is solved, then it agrees with the closed formula', () => {
    const [top, left, right, low, other, across] = [2, 3, 4, 10, 40, 25];
    const found = volts([
      ['battery', 0, top, battery(10, 1e-6)],
      ['R1', top, left, ohms(low)],
      ['R2', top, right, ohms(other)],
      ['R3', left, 0, ohms(other)],
      ['R4', right, 0, ohms(low)],
      ['R5', left, right, ohms(across)],
    ]);
    // By symmetry V(left) + V(right) = 10 V, so one current balance at the left corner is enough.
    const leftVolts = (10 / low + 10 / across) / (1 / low + 1 / other + 2 / across);
    expect(found[left]).toBeCloseTo(leftVolts, 5);
    expect(found[right]).toBeCloseTo(10 - leftVolts, 5);
  });
});

describe('opens beside good joints', () => {
  const feed: Row[] = [
    ['battery', 0, 2, battery(12.6, 0.01)],
    ['strap', 0, 1, ohms(0.001)],
    ['W1', 2, 3, ohms(0.001)],
    ['joint', 3, 4, ohms(0.001)],
    ['W2', 4, 5, ohms(0.001)],
    ['W3', 5, 6, ohms(0.001)],
  ];

  test('when 1 mΩ stands beside 10¹¹ Ω, then the divider keeps its digits', () => {
    const found = volts([...feed.slice(0, 3), ['open', 3, 4, ohms(1e11)], ['W2', 4, 1, ohms(1e11)]]);
    // Three paths of 1e-11 S meet at node 4: the open, the far resistor and its own leak.
    expect(found[4]! / 12.6).toBeCloseTo(1 / 3, 12);
  });

  test('when a joint opens, then the stretch behind it floats at the volts of body metal', () => {
    const found = volts(feed, { faults: [{ kind: 'series', element: 3, ohms: Infinity }] });
    for (const node of [4, 5, 6]) expect(Math.abs(found[node]! - found[1]!)).toBeLessThan(1e-16);
    expect(found[3]).toBeCloseTo(12.6, 9);
  });

  test('when both ends of a stretch open, then no digit of the rest is lost', () => {
    const faults = [3, 5].map((element) => ({ kind: 'series' as const, element, ohms: Infinity }));
    const found = volts([...feed, ['lamp', 3, 1, ohms(6)]], { faults });
    expect(found[3]! - found[1]!).toBeCloseTo((12.6 * 6) / 6.012, 10);
  });

  test('when a damp path of 1 MΩ feeds a cut-off stretch, then it reads nearly full volts unloaded', () => {
    const rows: Row[] = [...feed.slice(0, 3), ['damp', 3, 4, ohms(1e6)], ['W2', 4, 5, ohms(0.001)]];
    expect(volts(rows)[5]).toBeCloseTo(12.6, 2);
    expect(volts([...rows, ['meter', 5, 1, ohms(10e6)]])[5]).toBeCloseTo((12.6 * 10) / 11, 2);
    expect(volts([...rows, ['lamp', 5, 1, ohms(6)]])[5]).toBeCloseTo((12.6 * 6) / 1e6, 6);
  });

  test('when the battery is cut off, then every node rests at its leaks', () => {
    const present = new Uint8Array(feed.length).fill(1);
    present[0] = 0;
    for (const value of volts(feed, { present })) expect(Math.abs(value)).toBe(0);
  });

  test('when a point is shorted to body, then the current is limited by the path alone', () => {
    const found = volts(feed, { faults: [{ kind: 'shunt', node: 6, ohms: 0.1 }] });
    expect((found[6]! - found[1]!) / 0.1).toBeCloseTo(12.6 / (0.01 + 0.005 + 0.1), 6);
  });
});
