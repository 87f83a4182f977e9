/**
 * Minutes to the right repair, ngspice as the vehicle: the planner beside plainer ways to choose and three practices, on the same
 * vehicles (single faults drawn by their prior weights). Part of `npm run bench:planning`; `KNOWNGOOD_VEHICLES=20` for more,
 * `KNOWNGOOD_CIRCUITS=stop-tail,starter` for some.
 */
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import type { Workbench } from '../../../src/diagnosis/workbench.js';
import { random } from '../../../src/exercise/random.js';
import { readCircuit } from '../../../src/files/circuit-file.js';
import { USUAL_COSTS } from '../../../src/planning/usual-costs.js';
import { Ngspice } from '../../oracle/ngspice.js';
import { NgspicePhysics } from '../../trials/ngspice-physics.js';
import { CIRCUITS, circuitNames } from '../../trials/trials.js';
import { Job } from './job.js';
import { PRACTICES } from './practices.js';

const VEHICLES = Number(process.env['KNOWNGOOD_VEHICLES'] ?? 8);
/** Names of circuits, by commas; all where nothing is said. */
const ONLY = process.env['KNOWNGOOD_CIRCUITS']?.split(',');
/** Seeds tried for a vehicle that shows something. */
const MOST_SEEDS = 60;
const NAMES = Object.keys(PRACTICES);

interface Row {
  readonly circuit: string;
  readonly vehicles: number;
  /** Mean minutes, in the order of the practices. */
  readonly minutes: readonly number[];
  /** Vehicles that were not repaired in the end, likewise. */
  readonly unsolved: readonly number[];
}

async function measure(bench: Workbench, ngspice: Ngspice, first: number): Promise<Row> {
  const sums = NAMES.map(() => 0);
  const unsolved = NAMES.map(() => 0);
  let vehicles = 0;
  for (let seed = first; seed < first + MOST_SEEDS && vehicles < VEHICLES; seed++) {
    if ((await Job.begin(bench, new NgspicePhysics(ngspice), seed)) === undefined) continue;
    vehicles += 1;
    for (const [i, name] of NAMES.entries()) {
      const job = (await Job.begin(bench, new NgspicePhysics(ngspice), seed))!;
      await PRACTICES[name]!(job);
      sums[i]! += job.minutes;
      if (!job.solved) unsolved[i]! += 1;
    }
  }
  return { circuit: bench.circuit.id, vehicles, minutes: sums.map((sum) => sum / vehicles), unsolved };
}

/** Every cost halved or doubled, from a seed. */
function disturbed(bench: Workbench, seed: number): Workbench {
  const draw = random(seed);
  const costs = Object.fromEntries(
    Object.entries(USUAL_COSTS).map(([key, value]) => [
      key,
      key === 'labour' ? value : value * (draw() < 0.5 ? 0.5 : 2),
    ]),
  );
  const places = new Map(
    [...bench.circuit.places].map(([id, place]) => [
      id,
      { ...place, minutes: place.minutes * (draw() < 0.5 ? 0.5 : 2) },
    ]),
  );
  return createWorkbench({ ...bench.circuit, costs, places });
}

function printed(title: string, rows: readonly Row[]): string {
  const cell = (text: string) => text.padStart(20);
  const line = (name: string, vehicles: number, values: readonly string[]) =>
    [name.padEnd(18), String(vehicles).padStart(5), ...values.map(cell)].join('');
  const total = rows.reduce((sum, row) => sum + row.vehicles, 0);
  const means = NAMES.map(
    (_, i) => rows.reduce((sum, row) => sum + row.minutes[i]! * row.vehicles, 0) / total,
  );
  const failed = NAMES.map((_, i) => rows.reduce((sum, row) => sum + row.unsolved[i]!, 0));
  return [
    title,
    ['circuit'.padEnd(18), 'cars'.padStart(5), ...NAMES.map(cell)].join(''),
    ...rows.map((row) =>
      line(
        row.circuit,
        row.vehicles,
        row.minutes.map((mean) => mean.toFixed(1)),
      ),
    ),
    line(
      'all, mean minutes',
      total,
      means.map((mean) => mean.toFixed(1)),
    ),
    line(
      'planner / it',
      total,
      means.map((mean) => (means[0]! / mean).toFixed(2)),
    ),
    line('not repaired', total, failed.map(String)),
  ].join('\n');
}

test('when vehicles are repaired in several ways then the planner takes the fewest minutes on the whole', async () => {
  const ngspice = await Ngspice.start();
  const rows: Row[] = [];
  const otherCosts: Row[] = [];
  for (const [number, name] of circuitNames().entries()) {
    if (ONLY !== undefined && !ONLY.includes(name)) continue;
    const loaded = await readCircuit(join(CIRCUITS, `${name}.yaml`));
    if ('problems' in loaded) throw new Error(`circuits/${name}.yaml does not load`);
    const bench = createWorkbench(loaded.circuit);
    if (bench.network.loads.size === 0) continue;
    rows.push(await measure(bench, ngspice, number * 1000));
    otherCosts.push(await measure(disturbed(bench, number), ngspice, number * 1000));
    process.stderr.write(
      `planning: ${name}, ${rows
        .at(-1)!
        .minutes.map((mean) => mean.toFixed(1))
        .join(' ')}\n`,
    );
  }
  console.log(printed('\nExpected minutes to the right repair, ngspice as the vehicle', rows));
  console.log(printed('\nThe same with every cost halved or doubled at random', otherCosts));
  const mean = (i: number) => rows.reduce((sum, row) => sum + row.minutes[i]! * row.vehicles, 0);
  for (const [i, name] of NAMES.entries())
    if (!name.includes('only') && i > 0) expect(mean(0)).toBeLessThan(mean(i));
});
