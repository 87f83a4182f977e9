/**
 * Hunts single faults of each circuit one after the other: each hidden in a simulated vehicle, each followed by the program. Halves
 * run side by side; each session depends on its seed alone, so the split changes nothing.
 */
import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Fault } from '../../src/diagnosis/faults.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { random } from '../../src/exercise/random.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import { workbenchOf } from '../diagnosis/session-of.js';
import { Groups } from './groups.js';
import { score, type Score } from './score.js';
import { readKept } from './kept.js';
import { runSession } from './session.js';
import { circuitNames, SHARDS } from './trials.js';

const WANTED = process.env['KNOWNGOOD_SHELF'] ?? '12';
/** Faults of a circuit that are hunted. */
const MOST = WANTED === 'all' ? Infinity : Number(WANTED);
const ONLY = process.env['KNOWNGOOD_CIRCUITS']?.split(',');

export interface Hunted {
  readonly circuit: string;
  readonly fault: string;
  /** How many the circuit has. */
  readonly faults: number;
  /** Undefined: this fault changes nothing that a person would complain about. */
  readonly score?: Score | undefined;
}

/** One of the halves; what the folder has of it already is not done again. */
export async function runShelf(shard: number, folder: string): Promise<Hunted[]> {
  const file = join(folder, `shelf-${shard}.jsonl`);
  const done = readKept<Hunted>(file);
  const nameOf = ({ circuit, fault }: Pick<Hunted, 'circuit' | 'fault'>) => `${circuit} ${fault}`;
  const known = new Set(done.map(nameOf));
  for (const circuit of circuitNames()) {
    if (ONLY?.includes(circuit) === false) continue;
    const bench = await workbenchOf(circuit);
    const groups = new Groups(bench, undefined);
    for (const [nth, fault] of evenly(bench.faults, MOST).entries()) {
      if (nth % SHARDS !== shard || known.has(nameOf({ circuit, fault: fault.id }))) continue;
      const hunted: Hunted = {
        circuit,
        fault: fault.id,
        faults: bench.faults.length,
        score: await hunt(bench, groups, fault, nth),
      };
      done.push(hunted);
      appendFileSync(file, `${JSON.stringify(hunted)}\n`);
      process.stderr.write(lineOf(hunted));
    }
  }
  return done;
}

function lineOf({ circuit, fault, score: scored }: Hunted): string {
  const ended = scored === undefined ? 'nothing shows' : isFound(scored) ? 'found' : 'NOT FOUND';
  return `${circuit.padEnd(20)} ${fault.padEnd(34)} ${ended}\n`;
}

async function hunt(
  bench: Workbench,
  groups: Groups,
  fault: Fault,
  seed: number,
): Promise<Score | undefined> {
  const hidden = { fault, severity: severityOf(fault, seed), comesAndGoes: false };
  const session = await runSession(bench, new SolverPhysics(), 500 + seed, 'single', [hidden]);
  return session === undefined ? undefined : score(bench, groups, session);
}

/** Two of three at the far end of the scale, where a break is a clean one and a short a dead one; the others somewhere on it. */
function severityOf({ scale, kind }: Fault, seed: number): number {
  const [low, high] = [scale.edges[0]!, scale.edges.at(-1)!];
  if (scale.unit === 'none') return 0;
  if (seed % 3 < 2) return scale.unit === 'ohm' && kind === 'resistance' ? high : low;
  const part = random(seed)();
  return low > 0 ? low * (high / low) ** part : low + (high - low) * part;
}

function evenly<T>(list: readonly T[], most: number): T[] {
  if (list.length <= most) return [...list];
  return Array.from({ length: most }, (_, i) => list[Math.floor(((i + 0.5) * list.length) / most)]!);
}

/** Was the fault found: nothing left but what no test tells from it, or only its repair, or the vehicle cured by the repairs? */
export function isFound({ inGroup, inRepair, cured }: Score): boolean {
  return inGroup || inRepair || cured;
}

/** A row a circuit. */
export function shelfTable(hunted: readonly Hunted[]): string {
  const faults = new Map(
    [...hunted]
      .sort((a, b) => a.circuit.localeCompare(b.circuit))
      .map(({ circuit, faults: all }) => [circuit, all]),
  );
  const head = [
    'circuit',
    'faults',
    'hunted',
    'nothing shows',
    'in group',
    'one repair',
    'cured',
    'tests',
    'minutes',
  ];
  const rowOf = (name: string, own: readonly Hunted[], all: number): string[] => {
    const scores = own.flatMap((one) => one.score ?? []);
    const count = (holds: (one: Score) => boolean) => String(scores.filter(holds).length);
    const mean = (of: (one: Score) => number) =>
      scores.length === 0 ? '-' : (scores.reduce((sum, one) => sum + of(one), 0) / scores.length).toFixed(1);
    return [
      name,
      String(all),
      String(scores.length),
      String(own.length - scores.length),
      count(({ inGroup }) => inGroup),
      count(({ inGroup, inRepair }) => inGroup || inRepair),
      count(({ cured }) => cured),
      mean(({ findings }) => findings),
      mean(({ minutes }) => minutes),
    ];
  };
  const rows = [...faults].map(([name, all]) =>
    rowOf(
      name,
      hunted.filter(({ circuit }) => circuit === name),
      all,
    ),
  );
  rows.push(
    rowOf(
      'all',
      hunted,
      [...faults.values()].reduce((sum, all) => sum + all, 0),
    ),
  );
  const widths = head.map((_, i) => Math.max(...[head, ...rows].map((row) => row[i]!.length)));
  return [head, ...rows]
    .map((row) =>
      row.map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!))).join('  '),
    )
    .join('\n');
}
