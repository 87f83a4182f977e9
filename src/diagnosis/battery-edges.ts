/** What coils do with a healthy battery at the ends of its band: a weak or strong one may leave a relay in another state. */
import type { Solver } from '../network/solver.js';
import type { Outcome, Variant } from '../network/solver-types.js';
import { LEEWAY } from './heavy-current.js';
import type { Workbench } from './workbench.js';

/**
 * Clear cases are spared the solves.
 * @param outcomes those with every part at its nominal value
 * @param added how many elements the set-up adds to the drawing's
 */
export function atBatteryEdges(
  bench: Workbench,
  solver: Solver,
  variant: Variant,
  outcomes: readonly Outcome[],
  added: number,
): Outcome[] {
  if (!isFelt(bench, solver, variant, outcomes)) return [];
  return [-1, 1].flatMap((edge) => {
    const corner = new Int8Array(bench.network.elements.length + added);
    corner[bench.source] = edge;
    return solver.solve({ ...variant, corner });
  });
}

function isFelt(
  { network, source }: Workbench,
  solver: Solver,
  variant: Variant,
  outcomes: readonly Outcome[],
): boolean {
  if (network.coils.length === 0) return false;
  const law = variant.faults.find((fault) => fault.kind === 'law' && fault.element === source);
  if (law?.kind !== 'law' || law.law.kind !== 'source') return true;
  const { lowVolts, volts, highVolts } = law.law;
  const other = variant.faults.some(
    (fault) => fault !== law && 'element' in fault && fault.element === source,
  );
  // A flat battery, or one with ohms of its own, moves coils by more than its volts.
  if (!(volts > 0) || other) return true;
  const [low, high] = [(lowVolts / volts) * (1 - LEEWAY), (highVolts / volts) * (1 + LEEWAY)];
  return outcomes.some((outcome) => solver.coilsNearEdge(variant, outcome, low, high).length > 0);
}
