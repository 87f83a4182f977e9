/**
 * The whole reasoning for one more finding, on the largest circuit: every fault judged anew, ranked, with severities and reasons.
 * Beside it, in the same run, ngspice (as WebAssembly) solving what a search by trial values would need for the same finding: each
 * hypothesis once at each edge of its scale, part values nominal, tolerances left out. Nothing is asserted about times.
 */
import { test } from 'vitest';
import { assess } from '../../src/planning/assess.js';
import { gather } from '../../src/diagnosis/evidence.js';
import type { Observation } from '../../src/diagnosis/observe.js';
import { foldCase } from '../../src/session/fold.js';
import { simulate } from '../diagnosis/simulated.js';
import { workbenchOf } from '../diagnosis/session-of.js';
import type { SpiceCase } from '../oracle/netlist.js';
import { Ngspice } from '../oracle/ngspice.js';
import { circuitNames } from '../trials/trials.js';

const SEEDS = Array.from({ length: 12 }, (_, i) => 900 + i);
const READINGS = 8;
/** Of ngspice's solves this part is done and the time scaled up. */
const SAMPLE = 4;

test('a new finding on the largest circuit', async () => {
  const benches = await Promise.all(circuitNames().map((name) => workbenchOf(name)));
  const bench = benches.reduce((most, one) => (one.faults.length > most.faults.length ? one : most));
  const times: number[] = [];
  let last: Observation | undefined;
  for (const seed of SEEDS) {
    const { before, findings } = await simulate(bench, seed, 1, READINGS);
    for (let n = 1; n <= findings.length; n++) {
      const recorded = [...before, ...findings.slice(0, n)].map((event, i) => ({
        number: i + 1,
        at: '',
        event,
      }));
      const session = foldCase(bench.circuit, recorded);
      const began = performance.now();
      assess(bench, session, { fit: true });
      times.push(performance.now() - began);
      for (const step of gather(bench, session).steps)
        if (step.kind === 'observation' && step.observation.kind === 'volts') last = step.observation;
    }
  }
  const first = times[0]!;
  const sorted = times.slice(1).sort((a, b) => a - b);
  const at = (part: number) => sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
  const { added, present, quantity, source } = last!;
  const cases = bench.faults.flatMap(({ scale, apply }) =>
    [...new Set(scale.edges)].map((edge): SpiceCase => {
      const faults = [{ kind: 'law', element: bench.source, law: source } as const, apply(edge)];
      const nodes = [quantity.a, quantity.b].filter((node) => node !== 0);
      const network = bench.network;
      return { network, added, variant: { present, faults, blown: 0 }, pulledIn: 0, blown: 0, nodes };
    }),
  );
  const sample = cases.filter((_, i) => i % SAMPLE === 0);
  const ngspice = await Ngspice.start();
  let solved = 0;
  const began = performance.now();
  for (let i = 0; i < sample.length; i += 200) {
    // A network that ngspice cannot settle costs it time all the same, but counts for nothing.
    const chunk = sample.slice(i, i + 200);
    solved += await ngspice.solve(chunk).then(
      () => chunk.length,
      () => 0,
    );
  }
  const spice = ((performance.now() - began) * cases.length) / Math.max(1, solved);
  console.log(
    [
      `Reasoning for a new finding: ${bench.circuit.id}, ${bench.faults.length} faults, ${bench.network.nodeNames.length} nodes, ${sorted.length + 1} findings`,
      `  first of all ${first.toFixed(0)} ms; then median ${at(0.5).toFixed(1)}, 95th percentile ${at(0.95).toFixed(1)}, worst ${at(1).toFixed(0)} ms`,
      `  ngspice, the same hypotheses at each edge of their scales, no tolerances: ${cases.length} solves, ${spice.toFixed(0)} ms`,
      `  ratio to our median ${(spice / at(0.5)).toFixed(0)}, to our worst ${(spice / at(1)).toFixed(1)}`,
    ].join('\n'),
  );
});
