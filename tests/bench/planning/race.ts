/**
 * Minutes to the right repair, ngspice as the vehicle: the planner beside plainer ways to choose and three practices, on the same
 * vehicles (single faults drawn by their prior weights). In two halves side by side; each vehicle depends on its seed alone.
 */
import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import type { Workbench } from '../../../src/diagnosis/workbench.js';
import { random } from '../../../src/exercise/random.js';
import { readCircuit } from '../../../src/files/circuit-file.js';
import { USUAL_COSTS } from '../../../src/planning/usual-costs.js';
import { Ngspice } from '../../oracle/ngspice.js';
import { readKept } from '../../trials/kept.js';
import { NgspicePhysics } from '../../trials/ngspice-physics.js';
import { CIRCUITS, circuitNames, SHARDS } from '../../trials/trials.js';
import { Job } from './job.js';
import { PRACTICES } from './practices.js';

/** Vehicles of each circuit. */
const VEHICLES = Number(process.env['KNOWNGOOD_VEHICLES'] ?? 8);
/** Names of circuits, by commas; all where nothing is said. */
const ONLY = process.env['KNOWNGOOD_CIRCUITS']?.split(',');
/** Seeds tried for a vehicle that shows something, and in all for one circuit. */
const MOST_SEEDS = 60;
const SEEDS = 1_000_000;
export const WAYS = Object.keys(PRACTICES);

/** One vehicle, repaired in every way. */
export interface Raced {
  readonly circuit: string;
  /** Number of the vehicle among those of its circuit. */
  readonly nth: number;
  readonly costs: 'usual' | 'disturbed';
  readonly seed: number;
  /** By way, as in `WAYS`. Empty: no seed gave a vehicle with a complaint. */
  readonly minutes: readonly number[];
  readonly repaired: readonly boolean[];
}

/** One of the halves; what the folder has of it already is not done again. */
export async function runRace(shard: number, folder: string): Promise<Raced[]> {
  const file = join(folder, `race-${shard}.jsonl`);
  const done = readKept<Raced>(file);
  const nameOf = ({ circuit, nth, costs }: Pick<Raced, 'circuit' | 'nth' | 'costs'>) =>
    `${circuit} ${nth} ${costs}`;
  const known = new Set(done.map(nameOf));
  const ngspice = await Ngspice.start();
  for (const [number, circuit] of circuitNames().entries()) {
    if (ONLY?.includes(circuit) === false) continue;
    const loaded = await readCircuit(join(CIRCUITS, `${circuit}.yaml`));
    if ('problems' in loaded) throw new Error(`circuits/${circuit}.yaml does not load`);
    const usual = createWorkbench(loaded.circuit);
    if (usual.network.loads.size === 0) continue;
    const benches = [
      ['usual', usual],
      ['disturbed', disturbed(usual, number)],
    ] as const;
    for (let nth = shard; nth < VEHICLES; nth += SHARDS)
      for (const [costs, bench] of benches) {
        if (known.has(nameOf({ circuit, nth, costs }))) continue;
        const first = number * SEEDS + nth * MOST_SEEDS;
        const raced = { circuit, nth, costs, ...(await race(bench, ngspice, first)) };
        done.push(raced);
        appendFileSync(file, `${JSON.stringify(raced)}\n`);
        process.stderr.write(
          `${circuit} ${nth} ${costs} ${raced.minutes.map((one) => one.toFixed(1)).join(' ')}\n`,
        );
      }
  }
  return done;
}

async function race(
  bench: Workbench,
  ngspice: Ngspice,
  first: number,
): Promise<Pick<Raced, 'seed' | 'minutes' | 'repaired'>> {
  const begun = (seed: number) => Job.begin(bench, new NgspicePhysics(ngspice), seed);
  for (let seed = first; seed < first + MOST_SEEDS; seed++) {
    if ((await begun(seed)) === undefined) continue;
    const minutes: number[] = [];
    const repaired: boolean[] = [];
    for (const practice of Object.values(PRACTICES)) {
      const job = (await begun(seed))!;
      await practice(job);
      minutes.push(job.minutes);
      repaired.push(job.solved);
    }
    return { seed, minutes, repaired };
  }
  return { seed: first, minutes: [], repaired: [] };
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

/** Mean minutes, by way. */
export function meanMinutes(raced: readonly Raced[]): number[] {
  return WAYS.map((_, i) => raced.reduce((sum, { minutes }) => sum + minutes[i]!, 0) / raced.length);
}

/** A row a circuit, for the usual costs and for the disturbed ones. */
export function raceTables(all: readonly Raced[]): string {
  const raced = all.filter(({ minutes }) => minutes.length > 0);
  return (
    [
      ['usual', 'Mean minutes to the right repair, ngspice as the vehicle'],
      ['disturbed', 'The same with every cost halved or doubled at random'],
    ] as const
  )
    .map(([costs, title]) =>
      tableOf(
        title,
        raced.filter((one) => one.costs === costs),
      ),
    )
    .join('\n\n');
}

function tableOf(title: string, raced: readonly Raced[]): string {
  const cell = (text: string) => text.padStart(20);
  const line = (name: string, vehicles: number, values: readonly string[]) =>
    [name.padEnd(18), String(vehicles).padStart(5), ...values.map(cell)].join('');
  const means = meanMinutes(raced);
  const fixed = (digits: number) => (value: number) => value.toFixed(digits);
  return [
    title,
    ['circuit'.padEnd(18), 'cars'.padStart(5), ...WAYS.map(cell)].join(''),
    ...[...new Set(raced.map(({ circuit }) => circuit))].sort().map((circuit) => {
      const own = raced.filter((one) => one.circuit === circuit);
      return line(circuit, own.length, meanMinutes(own).map(fixed(1)));
    }),
    line('all', raced.length, means.map(fixed(1))),
    line(
      'planner / it',
      raced.length,
      means.map((mean) => fixed(2)(means[0]! / mean)),
    ),
    line(
      'not repaired',
      raced.length,
      WAYS.map((_, i) => String(raced.filter(({ repaired }) => !repaired[i]).length)),
    ),
  ].join('\n');
}
