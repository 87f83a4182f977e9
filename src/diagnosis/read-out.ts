/** From a solved network to the figure that a reading asks for. */
import { BODY, type Network } from '../network/network.js';
import type { AppliedFault, Outcome, Variant } from '../network/solver-types.js';
import type { Solver } from '../network/solver.js';
import type { Quantity } from './observe.js';

/**
 * The quantity as the network stands in an outcome of this variant: volts, or amperes for a clamp; not yet scaled. Several
 * values where the drawing does not say which: a clamp around a wire that touches the body sits before or behind that place.
 */
export function readOut(
  network: Network,
  solver: Solver,
  outcome: Outcome,
  variant: Variant,
  { a, b, through, inside }: Quantity,
): number[] {
  const { volts } = outcome;
  if (inside !== undefined) return [solver.ownVolts(outcome, variant, inside)];
  if (through === undefined) return [volts[a]! - volts[b]!];
  const amps = solver.current(outcome, variant, through);
  if (network.elements[through]!.owner !== 'wire') return [amps];
  const beyond = variant.faults.flatMap((fault) => {
    if (fault.kind !== 'shunt' || (fault.node !== a && fault.node !== b)) return [];
    const lost = (volts[fault.node]! - volts[BODY]!) / fault.ohms;
    return [fault.node === a ? amps + lost : amps - lost];
  });
  return [amps, ...beyond];
}

/**
 * Edges of tolerance that take the quantity to an end of its band, from those that do so for V(a) − V(b). The current through
 * an element falls when its own ohms rise, while the volts across it rise: for a clamp its own edge is the other one.
 */
export function edgesFor({ through }: Quantity, signs: Int8Array): Int8Array {
  if (through === undefined) return signs;
  return signs.map((sign, element) => (element === through ? -sign : sign));
}

/** Rated volts of the load as it is fitted: a wrong lamp is lit by its own standard. */
export function ratedVolts(quantity: Quantity, faults: readonly AppliedFault[]): number {
  for (const fault of faults) {
    if (fault.kind === 'law' && fault.element === quantity.load && fault.law.kind === 'curve')
      return fault.law.volts;
  }
  return quantity.scale;
}

/**
 * Volts by which a load is seen: an LED fitted for a filament is dark at less than its forward volts, and at any the wrong way round.
 * Both where its tolerance leaves that open.
 */
export function glow(volts: number, { load }: Quantity, faults: readonly AppliedFault[]): number[] {
  for (const fault of faults) {
    if (fault.kind !== 'law' || fault.element !== load || fault.law.kind !== 'diode') continue;
    const { forwardVolts, spread } = fault.law;
    if (volts < forwardVolts - spread) return [0];
    if (volts < forwardVolts + spread) return [0, volts];
  }
  return [volts];
}

/** The least and the most of several values, over the rated volts of what is fitted. */
export function overRated(
  values: readonly number[],
  quantity: Quantity,
  faults: readonly AppliedFault[],
): { low: number; high: number } {
  const scale = ratedVolts(quantity, faults);
  return { low: Math.min(...values) / scale, high: Math.max(...values) / scale };
}

export function magnitude(low: number, high: number): { low: number; high: number } {
  if (low >= 0) return { low, high };
  if (high <= 0) return { low: -high, high: -low };
  return { low: 0, high: Math.max(-low, high) };
}
