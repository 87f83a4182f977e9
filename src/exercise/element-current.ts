/** Volts and amperes of one element in a solved vehicle, without the ohms that a fault has put in series with it. */
import { coilConds } from '../network/cond.js';
import type { Law } from '../network/network.js';
import type { Decided } from './physics.js';

/** Volts across the element itself; 0 where it is apart, open or blown. */
export function ownVolts(decided: Decided, solved: Float64Array, index: number): number {
  const { law, series } = inForce(decided, index);
  if (!isClosed(decided, index) || series === Infinity) return 0;
  const { a, b } = decided.network.elements[index]!;
  const across = solved[a]! - solved[b]!;
  return 'ohms' in law ? (across * law.ohms) / (law.ohms + series) : across;
}

/**
 * Amperes through an element, magnitude. Only for resistive ones (wires, contacts, fuses): those a person can put a clamp
 * around.
 */
export function amperes(decided: Decided, solved: Float64Array, index: number): number {
  const { law } = inForce(decided, index);
  return 'ohms' in law ? Math.abs(ownVolts(decided, solved, index) / law.ohms) : 0;
}

/** Whether current can pass: fitted, closed by its control and its coils, not blown. */
export function isClosed({ network, variant, pulledIn, blown }: Decided, index: number): boolean {
  const fuse = network.fuses.indexOf(index);
  if (fuse >= 0 && (blown >>> fuse) & 1) return false;
  for (const fault of variant.faults)
    if (fault.kind === 'stuck' && fault.element === index) return fault.closed;
  if (variant.present[index] === 0) return false;
  const { law } = network.elements[index]!;
  if (law.kind !== 'contact') return true;
  return coilConds(law.closed).every(({ coil, rest }) => {
    const pulled = ((pulledIn >>> network.coils.indexOf(coil)) & 1) === 1;
    return pulled !== (rest === 'closed');
  });
}

/** Part of its current below which an LED is dark: microamperes. Below that only damp dirt feeds it. */
const DARK = 1e-4;

/** An LED with volts across it and as good as no current: nobody sees it glow. */
export function isDark(decided: Decided, solved: Float64Array, index: number, ratedVolts: number): boolean {
  const { law } = inForce(decided, index);
  if (law.kind !== 'diode') return false;
  const begins = law.forwardVolts - (decided.variant.corner?.[index] ?? 0) * law.spread;
  return ownVolts(decided, solved, index) - begins < DARK * (ratedVolts - law.forwardVolts);
}

/** The law that an element obeys, with the item that is fitted and what is wrong with it, and the ohms in series with it. */
export function inForce({ network, variant }: Decided, index: number): { law: Law; series: number } {
  let { law } = network.elements[index]!;
  let series = 0;
  for (const fault of variant.faults) {
    if (!('element' in fault) || fault.element !== index) continue;
    if (fault.kind === 'series') series += fault.ohms;
    if (fault.kind === 'law') law = fault.law;
  }
  return { law, series };
}
