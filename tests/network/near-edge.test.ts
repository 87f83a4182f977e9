/** The short cut past a battery's edges: it may be taken only where the relays can stand there as they do at nominal volts, and no other way. */
import { expect, test } from 'vitest';
import { standingOf } from '../../src/diagnosis/evidence.js';
import { LEEWAY } from '../../src/diagnosis/heavy-current.js';
import type { Outcome } from '../../src/network/solver-types.js';
import { edit } from '../../src/session/actions.js';
import { atRest } from '../../src/session/setup.js';
import { workbenchOf } from '../diagnosis/session-of.js';

const CASES = [
  ['horn', 'horn button', 'pressed', 'K1.86 resistance'],
  ['coolant-sensor', 'key', 'on', 'SP1/W1 resistance'],
  ['turn-hazard', 'hazard', 'on', 'K1.31 resistance'],
] as const;

test.each(CASES)(
  'when on %s a battery edge leaves a relay in another state then it is said beforehand',
  async (name, control, position, id) => {
    const bench = await workbenchOf(name);
    const { present } = standingOf(bench, edit({ do: 'operate', control, position }, atRest(bench.circuit)));
    const fault = bench.faults.find((one) => one.id === id)!;
    const solver = bench.solver([]);
    const states = (outcomes: readonly Outcome[]) =>
      [...new Set(outcomes.map(({ pulledIn }) => pulledIn))].sort().join();
    const { law } = bench.network.elements[bench.source]!;
    if (law.kind !== 'source') throw new Error('a battery is a source');
    const { lowVolts, volts, highVolts } = law;
    const said = new Set<boolean>();
    for (let step = 0; step <= 60; step++) {
      const variant = { present, faults: [fault.apply(10 ** (step / 15))], blown: 0 };
      const nominal = solver.solve(variant);
      const [low, high] = [(lowVolts / volts) * (1 - LEEWAY), (highVolts / volts) * (1 + LEEWAY)];
      const near = nominal.some((outcome) => solver.coilsNearEdge(variant, outcome, low, high).length > 0);
      said.add(near);
      for (const edge of [-1, 1]) {
        const corner = new Int8Array(bench.network.elements.length);
        corner[bench.source] = edge;
        if (states(solver.solve({ ...variant, corner })) !== states(nominal)) expect(near).toBe(true);
      }
    }
    expect([...said].sort()).toEqual([false, true]);
  },
);
