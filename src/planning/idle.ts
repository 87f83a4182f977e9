/**
 * Faults that change nothing where they sit: no current through the added ohms, no volts across the short. The network with such
 * a fault stands exactly as without it, so it needs no solve of its own.
 */
import type { Law, Network } from '../network/network.js';
import { BODY } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';

/** What counts as none. */
export interface Nothing {
  readonly amps: number;
  readonly volts: number;
}

/**
 * @param volts of every node in the network without the fault
 * @returns true when it surely changes nothing
 */
export function isIdle(
  network: Network,
  present: Uint8Array,
  fault: AppliedFault,
  volts: Float64Array,
  nothing: Nothing,
): boolean {
  const apart = (a: number, b: number) => Math.abs(volts[a]! - volts[b]!);
  switch (fault.kind) {
    case 'series': {
      const { a, b, law } = network.elements[fault.element]!;
      return present[fault.element] === 0 || apart(a, b) <= nothing.amps * leastOhms(law);
    }
    case 'stuck': {
      const { a, b, law } = network.elements[fault.element]!;
      return fault.closed ? apart(a, b) <= nothing.volts : apart(a, b) <= nothing.amps * leastOhms(law);
    }
    case 'shunt':
      return apart(fault.node, BODY) <= nothing.volts;
    case 'bridge':
      return apart(fault.a, fault.b) <= nothing.volts;
    case 'law': {
      const { a, b, law } = network.elements[fault.element]!;
      if (law.kind === 'source' || fault.law.kind === 'source') return false;
      return present[fault.element] === 0 || apart(a, b) <= nothing.volts;
    }
    case 'rehung': {
      const { a, b } = network.elements[fault.element]!;
      return apart(a, b) <= nothing.volts && apart(fault.a, fault.b) <= nothing.volts;
    }
    case 'crossed':
      return false;
  }
}

/** Ohms of an element at its most conductive; a curve's cold ohms, so that no current is overlooked. */
function leastOhms(law: Law): number {
  switch (law.kind) {
    case 'ohms':
    case 'contact':
    case 'fuse':
      return Math.max(law.low, 1e-6);
    case 'curve':
      return (law.coldLow * law.volts) / law.amps;
    default:
      return 1e-3;
  }
}
