/**
 * Voltmeter readings on a whole circuit file: every product of control positions, healthy and with every single fault at three
 * severities, each read by a 10 MΩ meter at probe points that take turns; every possible relay and fuse outcome.
 */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { createWorkbench, type Workbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { VOLTMETER } from '../../src/network/meters.js';
import { BODY } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { Variant } from '../../src/network/solver-types.js';
import { phasesOf } from './netlist.js';
import type { Ngspice } from './ngspice.js';
import { compareReadings, type TableReading, type TableRow } from './reading-table.js';
import { faultsIn, setUps, setUpWords, severities } from './table-circuits.js';

const FOLDER = join(import.meta.dirname, '../../circuits');

/** All that come with the program. */
export const CIRCUITS = readdirSync(FOLDER)
  .map((file) => file.replace('.yaml', ''))
  .sort();

/** @param most cases that are taken, evenly among all */
function* readings(bench: Workbench, most: number): Generator<TableReading> {
  const { circuit, network } = bench;
  const points = [...network.points];
  const solvers = new Map<string, Solver>();
  const faults = [{ words: 'healthy', applied: undefined }, ...bench.faults.flatMap(severities)];
  const standing = setUps(circuit);
  const every = Math.ceil((standing.length * faults.length) / most);
  let number = 0;
  let turn = 0;
  for (const setUp of standing) {
    const present = bench.presence(setUp);
    for (const { words, applied } of faults) {
      if (number++ % every !== 0) continue;
      // A step that shares no factor with most counts, so that faults and points meet in ever new pairs.
      turn += 37;
      const [point, a] = points[turn % points.length]!;
      const b = turn % 2;
      if (a === b) continue;
      // A second meter holds the body: with the battery's ground open it would hang on 100 GΩ leaks, where ngspice's matrix has
      // no digits left and it finds no operating point.
      const added = [
        { a, b, law: VOLTMETER },
        { a: BODY, b: 0, law: VOLTMETER },
      ];
      const key = `${a} ${b}`;
      const solver = solvers.get(key) ?? new Solver(network, added);
      solvers.set(key, solver);
      const list = faultsIn(bench, setUp, applied === undefined ? [] : [applied]);
      const variant: Variant = { present, faults: list, blown: 0 };
      for (const { pulledIn, blown, volts, phases } of solver.solve(variant)) {
        const nodes = [a, b];
        const guess = phases?.on ?? volts;
        yield {
          row: circuit.id,
          what: `${setUpWords(setUp)}, ${words}, ${point}, pulled ${pulledIn} blown ${blown}`,
          ours: volts[a]! - volts[b]!,
          cases: phasesOf({ network, added, variant, pulledIn, blown, nodes, guess }),
          value: (found) => found[a]! - found[b]!,
        };
      }
    }
  }
}

/**
 * Compares the solver with ngspice on a circuit of circuits/.
 * @param most cases that are taken, evenly among all
 */
export async function compareCircuit(ngspice: Ngspice, name: string, most: number): Promise<TableRow> {
  const loaded = await readCircuit(join(FOLDER, `${name}.yaml`));
  if ('problems' in loaded)
    throw new Error(`circuits/${name}.yaml is refused: ${loaded.problems[0]!.message}`);
  const [row] = await compareReadings(ngspice, [...readings(createWorkbench(loaded.circuit), most)]);
  return row!;
}
