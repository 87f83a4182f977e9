/** The solver against ngspice on random looms with filaments, motors and diodes, a 10 MΩ voltmeter attached in both. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { Solver } from '../../src/network/solver.js';
import type { AppliedFault, Variant } from '../../src/network/solver-types.js';
import { randomRows } from '../network/random-network.js';
import {
  battery,
  diode,
  fuse,
  lamp,
  ohms,
  rawNetwork,
  relayContact,
  variantOf,
} from '../network/raw-network.js';
import type { SpiceCase } from './netlist.js';
import { Ngspice } from './ngspice.js';

const METER = ohms(10e6);
let ngspice: Ngspice;
beforeAll(async () => {
  ngspice = await Ngspice.start();
});

/** Readings of the meter that differ by more than 1 mV + 0.1 %, as text; every outcome of every variant is compared. */
async function differing(
  network: SpiceCase['network'],
  variants: readonly Variant[],
  [a, b]: readonly [number, number],
): Promise<string[]> {
  const added = [{ a, b, law: METER }];
  const solver = new Solver(network, added);
  const compared = variants.flatMap((variant) =>
    solver.solve(variant).map((outcome) => ({ variant, outcome })),
  );
  const reference = await ngspice.solve(
    compared.map(({ variant, outcome: { pulledIn, blown } }) => ({
      network,
      added,
      variant,
      pulledIn,
      blown,
      nodes: [a, b],
    })),
  );
  expect(compared.length).toBeGreaterThanOrEqual(variants.length);
  return compared.flatMap(({ variant, outcome }, i) => {
    const ours = outcome.volts[a]! - outcome.volts[b]!;
    const theirs = reference[i]![a]! - reference[i]![b]!;
    const near = Math.abs(ours - theirs) <= 1e-3 + 1e-3 * Math.abs(theirs);
    return near ? [] : [`${JSON.stringify(variant.faults)}: ${ours} here, ${theirs} in ngspice`];
  });
}

describe('ngspice', () => {
  const nets = fc.sample(randomRows(0.001, true, 20), { numRuns: 10, seed: 11 });

  test.each(nets.map((rows, i) => [i, rows] as const))(
    'when loom %i has one fault after the other, then the meter agrees',
    async (i, rows) => {
      const network = rawNetwork(rows);
      const faults: AppliedFault[][] = [[]];
      for (let element = 0; element < rows.length; element += 3) {
        for (const added of [0.3, 1e3, Infinity]) faults.push([{ kind: 'series', element, ohms: added }]);
      }
      for (const node of [3, 8, 13]) faults.push([{ kind: 'shunt', node, ohms: 0.5 }]);
      const corner = new Int8Array(rows.length + 1).map((_, element) => ((element * 7 + i) % 3) - 1);
      const variants = faults.flatMap((list) => [
        variantOf(network, { faults: list }),
        variantOf(network, { faults: list, corner }),
      ]);
      expect(await differing(network, variants, [5 + i, 1])).toEqual([]);
    },
  );

  test.each(nets.map((rows, i) => [i, rows] as const))(
    'when nodes of loom %i touch and joints are crossed, then the meter agrees',
    async (i, rows) => {
      const network = rawNetwork(rows);
      const faults: AppliedFault[][] = [];
      for (let a = 1; a < 18; a += 3) {
        for (const value of [0.001, 4, 3e4])
          faults.push([{ kind: 'bridge', a, b: (a + 5 + i) % 20, ohms: value }]);
      }
      // Rows 2 to 18 are the joints of the loom.
      for (let first = 2; first < 18; first += 2) {
        const second = 2 + ((first * 5 + i) % 17);
        faults.push([{ kind: 'crossed', first, second }]);
        faults.push([
          { kind: 'crossed', first, second },
          { kind: 'crossed', first: second, second: 2 + i },
          { kind: 'series', element: second, ohms: 0.7 },
          { kind: 'bridge', a: 3, b: 12, ohms: 40 },
        ]);
      }
      const corner = new Int8Array(rows.length + 1).map((_, element) => ((element * 5 + i) % 3) - 1);
      const variants = faults.flatMap((list) => [
        variantOf(network, { faults: list }),
        variantOf(network, { faults: list, corner }),
      ]);
      expect(await differing(network, variants, [5 + i, 1])).toEqual([]);
    },
  );

  test('when relays, fuses, stuck contacts and other laws come in, then the meter agrees', async () => {
    const network = rawNetwork([
      ['battery', 0, 2, battery(12.6, 0.02)],
      ['strap', 0, 1, ohms(0.002)],
      ['F1', 2, 3, fuse(10)],
      ['K1:coil', 3, 1, ohms(80, 0.2)],
      ['K1:30-87', 3, 4, relayContact(3)],
      ['K1:30-87a', 3, 5, relayContact(3, 'closed')],
      ['H1', 4, 1, lamp(55)],
      ['V1', 5, 6, diode()],
      ['H2', 6, 1, lamp(5)],
    ]);
    const faults: AppliedFault[][] = [
      [],
      [{ kind: 'series', element: 3, ohms: Infinity }],
      [{ kind: 'series', element: 3, ohms: 150 }],
      [{ kind: 'series', element: 6, ohms: 2 }],
      [{ kind: 'series', element: 7, ohms: 2 }],
      [{ kind: 'shunt', node: 4, ohms: 0.05 }],
      [{ kind: 'stuck', element: 5, closed: true }],
      [{ kind: 'stuck', element: 4, closed: false }],
      [{ kind: 'law', element: 6, law: lamp(21, 24) }],
      [{ kind: 'law', element: 0, law: battery(7, 0.4) }],
      [{ kind: 'bridge', a: 4, b: 6, ohms: 0.3 }],
      [{ kind: 'bridge', a: 2, b: 5, ohms: 20 }],
      [{ kind: 'rehung', element: 7, a: 6, b: 5 }],
      [{ kind: 'rehung', element: 6, a: 5, b: 4 }],
    ];
    const variants = faults.map((list) => variantOf(network, { faults: list }));
    for (const node of [3, 4, 5, 6]) expect(await differing(network, variants, [node, 1])).toEqual([]);
  });
});
