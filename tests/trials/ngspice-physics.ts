/** ngspice as the physics of a simulated vehicle: voltages by somebody else's program, so that a trial does not test ours with itself. */
import { BATTERY_NEGATIVE, BODY } from '../../src/network/network.js';
import type { Decided, Physics } from '../../src/exercise/physics.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import type { SpiceCase } from '../oracle/netlist.js';
import type { Ngspice } from '../oracle/ngspice.js';

/**
 * A broken lamp in the hand hangs on leaks of 100 GOhm beside a filament of one ohm; ngspice's matrix then has no digits left.
 * A hundred times a voltmeter's ohms to body at every node give them back, and no reading feels them.
 */
const DAMP_OHMS = 1e9;

export class NgspicePhysics implements Physics {
  /** Networks that ngspice solved, and those for which it found no operating point: our solver stood in for it. */
  readonly count = { solved: 0, stoodIn: 0 };
  private readonly ours = new SolverPhysics();

  constructor(private readonly ngspice: Ngspice) {}

  async volts(decided: readonly Decided[]): Promise<readonly Float64Array[]> {
    try {
      const solved = await solveDamp(this.ngspice, decided);
      this.count.solved += decided.length;
      return solved;
    } catch {
      this.count.stoodIn += decided.length;
      return this.ours.volts(decided);
    }
  }
}

/** Volts per node of each case, every node with its damp. @param times how much drier than usual */
export async function solveDamp(
  ngspice: Ngspice,
  cases: readonly SpiceCase[],
  times = 1,
): Promise<Float64Array[]> {
  return ngspice.solve(cases.map((one) => damp(one, times)));
}

/** The same network with its damp. */
export function damp<T extends SpiceCase>(one: T, times = 1): T {
  const ohms = times * DAMP_OHMS;
  const law = { kind: 'ohms', ohms, low: ohms, high: ohms } as const;
  const leaks = one.network.nodeNames.flatMap((_, a) => (a === BODY ? [] : [{ a, b: BODY, law }]));
  // A body with no ground would hang on those alone.
  const held = {
    a: BODY,
    b: BATTERY_NEGATIVE,
    law: { kind: 'ohms', ohms: 1e7, low: 1e7, high: 1e7 },
  } as const;
  return { ...one, added: [...one.added, held, ...leaks] };
}
