/** ngspice as the physics of a simulated vehicle: voltages by somebody else's program, so that a trial does not test ours with itself. */
import type { Decided, Physics } from '../../src/exercise/physics.js';
import type { Ngspice } from '../oracle/ngspice.js';

export class NgspicePhysics implements Physics {
  /** Networks solved so far. */
  solved = 0;

  constructor(private readonly ngspice: Ngspice) {}

  async volts(decided: readonly Decided[]): Promise<readonly Float64Array[]> {
    this.solved += decided.length;
    return this.ngspice.solve(decided);
  }
}
