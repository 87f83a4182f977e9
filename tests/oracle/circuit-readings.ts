/**
 * Voltmeter readings on a whole circuit file: every product of control positions, healthy and with every single fault at three
 * severities, each read by a 10 MΩ meter at probe points that take turns; every possible relay and fuse outcome.
 */
import { join } from 'node:path';
import { readCircuit } from '../../src/files/circuit-file.js';
import type { Circuit } from '../../src/circuit/circuit.js';
import { listFaults } from '../../src/diagnosis/faults.js';
import { compile } from '../../src/network/compile.js';
import { presence } from '../../src/network/conditions.js';
import { VOLTMETER } from '../../src/network/meters.js';
import { BODY } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { AppliedFault, Outcome, Variant } from '../../src/network/solver-types.js';
import { atRest } from '../../src/session/setup.js';
import type { SpiceCase } from './netlist.js';
import type { Ngspice } from './ngspice.js';

export const CIRCUITS = ['reversing-lamps', 'stop-tail', 'work-lamps', 'trailer'];

export interface Comparison {
  readonly readings: number;
  /** Largest |difference| beyond 0.1 % of the reading, volts. */
  readonly worst: number;
  /** Readings that differ by more than 1 mV + 0.1 %. */
  readonly differing: readonly string[];
}

interface Reading extends SpiceCase {
  readonly what: string;
  readonly ours: number;
  readonly nodes: readonly [number, number];
}

/** Every combination of control positions. */
function positions(circuit: Circuit): Map<string, string>[] {
  let all: Map<string, string>[] = [new Map()];
  for (const { id, positions: of } of circuit.controls.values()) {
    all = all.flatMap((before) => of.map((position) => new Map([...before, [id, position]])));
  }
  return all;
}

/** Healthy, then each fault at the mildest, middle and worst severity of its scale. */
function faultCases(circuit: Circuit, network: ReturnType<typeof compile>): [string, AppliedFault[]][] {
  const cases: [string, AppliedFault[]][] = [['healthy', []]];
  for (const { id, scale, apply } of listFaults(circuit, network)) {
    const { edges } = scale;
    const chosen = new Set([edges[0]!, edges[edges.length >> 1]!, edges.at(-1)!]);
    for (const severity of chosen) cases.push([`${id} ${severity} ${scale.unit}`, [apply(severity)]]);
  }
  return cases;
}

/** @param every takes one case in so many */
function* readings(circuit: Circuit, every: number): Generator<Reading> {
  const network = compile(circuit);
  const points = [...network.points];
  const solvers = new Map<string, Solver>();
  const faults = faultCases(circuit, network);
  let number = 0;
  let turn = 0;
  for (const controls of positions(circuit)) {
    const present = presence(circuit, network, { ...atRest(circuit), controls });
    for (const [what, applied] of faults) {
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
      const variant: Variant = { present, faults: applied, blown: 0 };
      for (const outcome of solver.solve(variant)) {
        const { pulledIn, blown, volts }: Outcome = outcome;
        const where = `${[...controls].flat().join(' ')}, ${what}, ${point}, pulled ${pulledIn} blown ${blown}`;
        yield {
          what: where,
          ours: volts[a]! - volts[b]!,
          network,
          added,
          variant,
          pulledIn,
          blown,
          nodes: [a, b],
          guess: volts,
        };
      }
    }
  }
}

/** Compares the solver with ngspice on a circuit of circuits/. */
export async function compareCircuit(ngspice: Ngspice, name: string, every: number): Promise<Comparison> {
  const loaded = await readCircuit(join(import.meta.dirname, '../../circuits', `${name}.yaml`));
  if ('problems' in loaded)
    throw new Error(`circuits/${name}.yaml is refused: ${loaded.problems[0]!.message}`);
  const all = [...readings(loaded.circuit, every)];
  const reference = await ngspice.solve(all);
  let worst = 0;
  const differing: string[] = [];
  all.forEach(({ what, ours, nodes: [a, b] }, i) => {
    const theirs = reference[i]![a]! - reference[i]![b]!;
    const beyond = Math.abs(ours - theirs) - 1e-3 * Math.abs(theirs);
    worst = Math.max(worst, beyond);
    if (!(beyond <= 1e-3)) differing.push(`${what}: ${ours} V here, ${theirs} V in ngspice`);
  });
  return { readings: all.length, worst, differing };
}
