/**
 * How long a person waits for the suggested test: over whole sessions, the first one included, each circuit on a fresh workbench; on
 * the circuits of fewest, middle and most faults, and on a generated harness of 300 parts, of which (its wires included) more than 60
 * are suspect. What the reasoner takes before it is not counted. Time on the clock, and that of all processors together, which counts
 * compiler and memory keeper as well; printed, never asserted. Part of `npm run bench:planning`.
 */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { diagnose } from '../../../src/diagnosis/diagnose.js';
import type { Workbench } from '../../../src/diagnosis/workbench.js';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import { random } from '../../../src/exercise/random.js';
import { SimulatedCar } from '../../../src/exercise/simulated-car.js';
import { SolverPhysics } from '../../../src/exercise/solver-car.js';
import { parseCircuit, readCircuit } from '../../../src/files/circuit-file.js';
import { advise } from '../../../src/planning/next.js';
import { foldCase } from '../../../src/session/fold.js';
import { recordedOf } from '../../diagnosis/session-of.js';
import { Mechanic } from '../../trials/mechanic.js';
import { CIRCUITS, circuitNames } from '../../trials/trials.js';
import { CONCERN, harnessYaml } from './harness.js';
import { Job } from './job.js';

const VEHICLES = Number(process.env['KNOWNGOOD_VEHICLES'] ?? 8);
const MOST_TESTS = 15;
/** On the harness, where the reasoning between two tests takes seconds. */
const HARNESS_TESTS = 3;
/** Parts and wires of the harness with numbers up to here lie in its first block. */
const FIRST_BLOCK = 80;
const SAMPLE = 24;
const QUANTILES = ['first', 'p50', 'p95', 'max'];

async function loaded(name: string): Promise<Workbench> {
  const read = await readCircuit(join(CIRCUITS, `${name}.yaml`));
  if ('problems' in read) throw new Error(`circuits/${name}.yaml does not load`);
  return createWorkbench(read.circuit);
}

/**
 * The reasoner judges the shorts behind the first fuse and a sample of the other faults: with all of them it takes minutes between two
 * tests, and what is measured is the choice of the test among more than 60 suspect parts.
 */
function harness(): Workbench {
  const read = parseCircuit(harnessYaml());
  if ('problems' in read) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  const whole = createWorkbench(read.circuit);
  return {
    ...whole,
    faults: whole.faults.filter(
      ({ kind, part }, i) => (kind === 'short' && Number(part.slice(1)) <= FIRST_BLOCK) || i % SAMPLE === 0,
    ),
  };
}

interface Took {
  /** Milliseconds. */
  readonly clock: number;
  readonly processors: number;
}

/** Follows the advice; gives what each suggestion took. */
async function followed(bench: Workbench, mechanic: Mechanic, most = MOST_TESTS): Promise<Took[]> {
  const times: Took[] = [];
  while (times.length < most) {
    const { diagnosis } = mechanic;
    const session = mechanic.case;
    const [began, used] = [performance.now(), process.cpuUsage()];
    const { tests } = advise(bench, session, diagnosis);
    const clock = performance.now() - began;
    const { user, system } = process.cpuUsage(used);
    times.push({ clock, processors: (user + system) / 1000 });
    const [best] = tests;
    if (best === undefined) break;
    for (const action of best.actions) await mechanic.act(action);
    if ((await mechanic.read(best.reading)) === undefined)
      mechanic.record({ type: 'skipped', test: best.line, why: 'cannot tell' });
  }
  return times;
}

/** On the clock, then on all processors. */
function row(name: string, times: readonly Took[]): string {
  const cells = (['clock', 'processors'] as const).flatMap((kind) => {
    const sorted = times.map((took) => took[kind]).sort((a, b) => a - b);
    const at = (part: number) => sorted[Math.min(sorted.length - 1, Math.floor(part * sorted.length))]!;
    return [times[0]![kind], at(0.5), at(0.95), at(1)].map((value) => value.toFixed(0));
  });
  return [name.padEnd(34), ...[times.length, ...cells].map((cell) => String(cell).padStart(7))].join('');
}

test('when suggestions are timed over whole sessions then none is missing', async () => {
  const all = await Promise.all(circuitNames().map(loaded));
  const bySize = all
    .filter(({ network }) => network.loads.size > 0)
    .sort((a, b) => a.faults.length - b.faults.length);
  const sizes = [bySize[0]!, bySize[bySize.length >> 1]!, bySize.at(-1)!];
  const rows: string[] = [];
  for (const { circuit, faults } of sizes) {
    const bench = createWorkbench(circuit);
    const times: Took[] = [];
    let vehicles = 0;
    for (let seed = 1; seed < 100 && vehicles < VEHICLES; seed++) {
      const job = await Job.begin(bench, new SolverPhysics(), seed);
      if (job === undefined) continue;
      vehicles += 1;
      times.push(...(await followed(bench, job.mechanic)));
    }
    expect(times.length).toBeGreaterThanOrEqual(VEHICLES);
    rows.push(row(`${circuit.id} (${faults.length} faults)`, times));
  }
  const bench = harness();
  expect(bench.circuit.parts.size).toBe(300);
  // The first short at a lamp or a plug lies behind the first fuse.
  const fault = bench.faults.find(({ kind, part }) => kind === 'short' && /^[HX]/.test(part))!;
  const car = new SimulatedCar(
    bench,
    new SolverPhysics(),
    random(1),
    [{ fault, severity: 0.01, comesAndGoes: false }],
    false,
  );
  const mechanic = new Mechanic(bench, car, random(2));
  mechanic.recorded.push(...recordedOf(bench, [CONCERN]));
  const { setUp } = foldCase(bench.circuit, mechanic.recorded).timeline.flatMap((step) =>
    step.kind === 'finding' ? [step.finding] : [],
  )[0]!;
  const began = process.cpuUsage().user;
  const parts = new Set(
    diagnose(bench, mechanic.case).suspects.flatMap(({ faults }) => faults.map(({ part }) => part)),
  );
  const reasoned = (process.cpuUsage().user - began) / 1000;
  // Wires among them: a short anywhere on a stretch is one suspect.
  expect(parts.size).toBeGreaterThanOrEqual(60);
  await mechanic.moveTo(setUp);
  const times = await followed(bench, mechanic, HARNESS_TESTS);
  rows.push(row(`harness (${bench.faults.length} faults, ${parts.size} suspect)`, times));
  console.log(
    [
      '\nMilliseconds to the suggested test, whole sessions: on the clock, then on all processors',
      ['circuit'.padEnd(34), ...['tests', ...QUANTILES, ...QUANTILES].map((cell) => cell.padStart(7))].join(
        '',
      ),
      ...rows,
      `(harness: ${reasoned.toFixed(0)} ms of reasoning before the first)`,
    ].join('\n'),
  );
});
