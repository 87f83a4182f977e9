/** Diodes between points that float at some volts: their currents are no finer than the digits of those volts. */
import { expect, test } from 'vitest';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { atRest } from '../../src/session/setup.js';

test('when the battery clamp is off and nothing excites the alternator then the floating diodes settle, and nothing lights', async () => {
  const loaded = await readCircuit('circuits/charging.yaml');
  if ('problems' in loaded) throw new Error(loaded.problems.map(({ message }) => message).join('\n'));
  const bench = createWorkbench(loaded.circuit);
  const controls = new Map(
    [...loaded.circuit.controls.values()].map(({ id, positions }) => [id, positions.at(-1)!]),
  );
  const present = bench.presence({ ...atRest(loaded.circuit), controls, engine: 'running' });
  const element = bench.network.sites.get('G1.31')!;
  const outcomes = bench
    .solver([])
    .solve({ present, faults: [{ kind: 'series', element, ohms: 1.3e11 }], blown: 0 });
  expect(outcomes.length).toBeGreaterThan(0);
  const lamp = bench.network.elements[bench.network.loads.get('H2')!.element]!;
  const still = outcomes.filter(({ pulledIn }) => pulledIn === 0);
  expect(still.length).toBeGreaterThan(0);
  for (const { volts } of still) expect(Math.abs(volts[lamp.a]! - volts[lamp.b]!)).toBeLessThan(0.01);
});
