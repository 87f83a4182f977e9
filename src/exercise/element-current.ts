/** Volts and amperes of one element in a solved vehicle, without the ohms that a fault has put in series with it. */
import type { Law } from '../network/network.js';
import type { Decided } from './physics.js';

interface Own {
  readonly volts: number;
  readonly law: Law;
}

/** Volts across the element itself; 0 where it is apart, open or blown. */
export function ownVolts(decided: Decided, solved: Float64Array, index: number): number {
  return ownOf(decided, solved, index).volts;
}

/**
 * Amperes through an element, magnitude. Only for resistive ones (wires, contacts, fuses): those a person can put a clamp
 * around.
 */
export function amperes(decided: Decided, solved: Float64Array, index: number): number {
  const { volts, law } = ownOf(decided, solved, index);
  return 'ohms' in law ? Math.abs(volts / law.ohms) : 0;
}

function ownOf({ network, variant, pulledIn, blown }: Decided, solved: Float64Array, index: number): Own {
  const { a, b, law: drawn } = network.elements[index]!;
  let law: Law = drawn;
  let series = 0;
  let closed: boolean | undefined;
  for (const fault of variant.faults) {
    if (!('element' in fault) || fault.element !== index) continue;
    if (fault.kind === 'series') series += fault.ohms;
    if (fault.kind === 'law') law = fault.law;
    if (fault.kind === 'stuck') closed = fault.closed;
  }
  const fuse = network.fuses.indexOf(index);
  if (fuse >= 0 && (blown >>> fuse) & 1) closed = false;
  if (variant.present[index] === 0) closed ??= false;
  if (drawn.kind === 'contact' && drawn.closed.kind === 'coil') {
    const pulled = ((pulledIn >>> network.coils.indexOf(drawn.closed.coil)) & 1) === 1;
    closed ??= pulled !== (drawn.closed.rest === 'closed');
  }
  if (closed === false || series === Infinity) return { volts: 0, law };
  const across = solved[a]! - solved[b]!;
  return { volts: 'ohms' in law ? (across * law.ohms) / (law.ohms + series) : across, law };
}
