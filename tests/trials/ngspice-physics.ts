/** ngspice as the physics of a simulated vehicle: voltages by somebody else's program, so that a trial does not test ours with itself. */
import { BODY } from '../../src/network/network.js';
import type { Decided, Physics } from '../../src/exercise/physics.js';
import type { Ngspice } from '../oracle/ngspice.js';

/**
 * A broken lamp in the hand hangs on leaks of 100 GOhm beside a filament of one ohm; ngspice's matrix then has no digits left.
 * A hundred times a voltmeter's ohms to body at every node give them back, and no reading feels them.
 */
const DAMP_OHMS = 1e9;

export class NgspicePhysics implements Physics {
  constructor(private readonly ngspice: Ngspice) {}

  async volts(decided: readonly Decided[]): Promise<readonly Float64Array[]> {
    try {
      return await this.ngspice.solve(decided);
    } catch {
      return this.ngspice.solve(decided.map(damp));
    }
  }
}

function damp(decided: Decided): Decided {
  const law = { kind: 'ohms', ohms: DAMP_OHMS, low: DAMP_OHMS, high: DAMP_OHMS } as const;
  const leaks = decided.network.nodeNames.flatMap((_, a) => (a === BODY ? [] : [{ a, b: BODY, law }]));
  return { ...decided, added: [...decided.added, ...leaks] };
}
