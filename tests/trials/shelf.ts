/** Hunts single faults of a circuit one after the other: each hidden in a simulated vehicle, each followed by the program. */
import type { Fault } from '../../src/diagnosis/faults.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { random } from '../../src/exercise/random.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import { workbenchOf } from '../diagnosis/session-of.js';
import { Groups } from './groups.js';
import { score, type Score } from './score.js';
import { runSession } from './session.js';

export interface Hunted {
  readonly circuit: string;
  readonly fault: string;
  /** Undefined: this fault changes nothing that a person would complain about. */
  readonly score: Score | undefined;
}

/** Hunts up to `most` of a circuit's faults, evenly over its list. `told` is called after each. */
export async function huntAll(
  circuit: string,
  most: number,
  told: (hunted: Hunted) => void,
): Promise<{ readonly faults: number }> {
  const bench = await workbenchOf(circuit);
  const groups = new Groups(bench, undefined);
  for (const [nth, fault] of evenly(bench.faults, most).entries())
    told({ circuit, fault: fault.id, score: await hunt(bench, groups, fault, nth) });
  return { faults: bench.faults.length };
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
export function shelfTable(hunted: readonly Hunted[], faults: ReadonlyMap<string, number>): string {
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
