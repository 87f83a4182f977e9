/** A circuit made ready for reasoning: network, faults and the solvers, each made once and kept. */
import type { Circuit } from '../circuit/circuit.js';
import { compile } from '../network/compile.js';
import { presence, sourceElement } from '../network/conditions.js';
import type { Network } from '../network/network.js';
import { Solver } from '../network/solver.js';
import type { AddedElement } from '../network/solver-types.js';
import type { SetUp } from '../session/setup.js';
import type { Fault } from './faults.js';
import { listFaults } from './faults.js';

export interface Workbench {
  readonly circuit: Circuit;
  readonly network: Network;
  readonly faults: readonly Fault[];
  /** Element of the battery's emf. */
  readonly source: number;
  /** Solver for the network with these meters, jumpers and lamps attached. */
  solver(added: readonly AddedElement[]): Solver;
  /** Which elements are connected in this set-up. */
  presence(setUp: SetUp): Uint8Array;
}

export function createWorkbench(circuit: Circuit): Workbench {
  const network = compile(circuit);
  const solvers = new Map<string, Solver>();
  const presences = new Map<string, Uint8Array>();
  return {
    circuit,
    network,
    faults: listFaults(circuit, network),
    source: sourceElement(network),
    solver(added) {
      const key = JSON.stringify(added);
      let solver = solvers.get(key);
      if (solver === undefined) {
        solver = new Solver(network, added);
        solvers.set(key, solver);
      }
      return solver;
    },
    presence(setUp) {
      const key = JSON.stringify([
        ...[[...setUp.controls], [...setUp.unplugged], [...setUp.out]],
        ...[setUp.engine, setUp.rested],
      ]);
      let present = presences.get(key);
      if (present === undefined) {
        present = presence(circuit, network, setUp);
        presences.set(key, present);
      }
      return present;
    },
  };
}
