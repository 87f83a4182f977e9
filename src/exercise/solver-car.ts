/** Our own solver as the physics of a simulated vehicle. */
import { Solver } from '../network/solver.js';
import type { Decided, Physics } from './physics.js';

/** Solvers that are kept: one for each place a meter stands. */
const MOST_SOLVERS = 40;

/** Physics of one vehicle after another; make one per vehicle, for its networks are kept. */
export class SolverPhysics implements Physics {
  private readonly solvers = new Map<string, Solver>();

  async volts(decided: readonly Decided[]): Promise<readonly Float64Array[]> {
    return decided.map((one) => this.solve(one));
  }

  private solve({ network, added, variant, pulledIn, blown }: Decided): Float64Array {
    const key = JSON.stringify(added);
    let solver = this.solvers.get(key);
    if (solver === undefined) {
      if (this.solvers.size >= MOST_SOLVERS) this.solvers.delete(this.solvers.keys().next().value!);
      this.solvers.set(key, (solver = new Solver(network, added)));
    }
    return solver.solve({ ...variant, blown, forcedRelays: pulledIn })[0]!.volts;
  }
}
