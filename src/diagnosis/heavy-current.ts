/** What coils do where a heavy current makes their volts uncertain, as at a short that no fuse ends. */
import type { Solver } from '../network/solver.js';
import type { Outcome, Variant } from '../network/solver-types.js';
import type { Workbench } from './workbench.js';

/** Coil volts follow the battery's in proportion, but for this much that lamps and motors bend. */
export const LEEWAY = 0.15;
/** Part of its volts that a healthy battery loses under a heavy current (common practice, no source). */
const SAG = 0.05;
/** Most that coil volts may differ by then, as a part of themselves (our own figure). */
const LOOSEST = 0.6;

/**
 * Under a heavy current the volts of a coil hang on joints and contacts of which a good one may have ten times the ohms of another: what
 * the coil does with all of them for it, and with all against it.
 * @param outcomes those with every part at its nominal value
 */
export function underHeavyCurrent(
  { network, source }: Workbench,
  solver: Solver,
  variant: Variant,
  outcomes: readonly Outcome[],
): Outcome[] {
  const healthy = network.elements[source]!.law;
  const there = variant.faults.find((fault) => fault.kind === 'law' && fault.element === source);
  const law = there?.kind === 'law' ? there.law : healthy;
  if (law.kind !== 'source' || healthy.kind !== 'source' || network.coils.length === 0) return [];
  const [plus, minus] = ['bat+', 'bat-'].map((post) => network.points.get(post)!);
  return outcomes.flatMap((outcome) => {
    const amps = Math.abs(solver.current(outcome, variant, source));
    const posts = outcome.volts[plus!]! - outcome.volts[minus!]!;
    const sag = Math.max(amps * healthy.ohms, law.volts - posts) / law.volts;
    if (!(sag > SAG)) return [];
    const loose = Math.min(LOOSEST, LEEWAY + 2 * sag);
    return solver.coilsNearEdge(variant, outcome, 1 - loose, 1 + loose).flatMap((bit) => {
      const { a, b } = network.elements[network.coils[bit]!]!;
      const { signs } = solver.adjoint(outcome, variant, a, b);
      return [signs, signs.map((sign) => -sign)].flatMap((corner) => solver.solve({ ...variant, corner }));
    });
  });
}
