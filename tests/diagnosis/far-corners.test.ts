/** Nothing that part values inside their tolerance can read lies outside a predicted band, and the band is hardly wider than that. */
import { describe, expect, test } from 'vitest';
import { gather } from '../../src/diagnosis/evidence.js';
import type { Observation } from '../../src/diagnosis/observe.js';
import { Predictor } from '../../src/diagnosis/predict.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { random } from '../../src/exercise/random.js';
import { sourceElement } from '../../src/network/conditions.js';
import { foldCase } from '../../src/session/fold.js';
import { recordedOf, workbenchOf } from './session-of.js';

const VEHICLES = 400;

function observed(bench: Workbench, lines: readonly string[]): Observation {
  const { steps } = gather(bench, foldCase(bench.circuit, recordedOf(bench, lines)));
  const last = steps.findLast((step) => step.kind === 'observation' && step.observation.kind === 'volts');
  if (last?.kind !== 'observation') throw new Error('nothing was read');
  return last.observation;
}

/** Volts between the probes of vehicles with every part at one edge of its tolerance or the other, searched from there uphill. */
function extremes(
  bench: Workbench,
  { added, present, source, quantity }: Observation,
  id: string,
  ohms: number,
) {
  const fault = bench.faults.find((one) => one.id === id)!.apply(ohms);
  const battery = { kind: 'law', element: sourceElement(bench.network), law: source } as const;
  const solver = bench.solver(added);
  const relays = solver.solve({ present, faults: [battery, fault], blown: 0 })[0]!.pulledIn;
  const size = bench.network.elements.length + added.length;
  const draw = random(7);
  const read = (corner: Int8Array) => {
    const held = { present, faults: [battery, fault], blown: 0, forcedRelays: relays, still: true };
    const { volts } = solver.solve({ ...held, corner })[0]!;
    return (volts[quantity.a]! - volts[quantity.b]!) / quantity.scale;
  };
  const ends = [1, -1].map((way) => {
    let best = -Infinity;
    let at = new Int8Array(size);
    for (let i = 0; i < VEHICLES; i++) {
      const corner = at.map((edge) => (i < VEHICLES / 4 || draw() < 0.05 ? (draw() < 0.5 ? 1 : -1) : edge));
      const value = way * read(corner);
      if (value > best) [best, at] = [value, corner];
    }
    return way * best;
  });
  return { high: ends[0]!, low: ends[1]! };
}

describe.each([
  ['F2.1 short', 0.01, 'volts F2.1 1.00'],
  ['F2.1 short', 0.5, 'volts F2.1 1.00'],
  ['W17 short', 0.03, 'volts bat+ bat- 1.00'],
  ['K1.30 short', 0.02, 'volts G1.30 SP1 1.00'],
  ['GP1 resistance', 2, 'volts GP1 bat- 1.00'],
])('%s at %d ohm', (id, ohms, line) => {
  test('when parts are anywhere in their tolerance then all that they read is foretold, and little else', async () => {
    const bench = await workbenchOf('accessory-socket');
    const observation = observed(bench, ['key on', 'prove volts', line]);
    const fault = bench.faults.find((one) => one.id === id)!;
    const bands = new Predictor(bench, observation).bands([[fault.apply(ohms)]], 0);
    const low = Math.min(...bands.map((band) => band.low));
    const high = Math.max(...bands.map((band) => band.high));
    const seen = extremes(bench, observation, id, ohms);
    expect(low).toBeLessThanOrEqual(seen.low);
    expect(high).toBeGreaterThanOrEqual(seen.high);
    expect(high - low).toBeLessThan(1.15 * (seen.high - seen.low));
  });
});
