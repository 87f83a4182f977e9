/**
 * Damp dirt: any point may leak to its surroundings through a megohm. Where hardly anything else holds a point, a meter then reads
 * volts, and an LED glows; a few ohms from a supply the leak is nothing.
 */
import type { Network } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';
import type { Quantity } from './observe.js';
import type { Band } from './question.js';

/** A point may leak to its surroundings through damp dirt with as little as this; a floating point then reads volts. */
const DAMP_OHMS = 1e6;
/** Part of its rated volts that an LED may show by that leak alone: a glow, which nobody calls lit (common practice, no source). */
const GLOW = 0.45;

/**
 * The band, V(a) − V(b), widened by what the leak may do.
 * @param ohms between a and b, small changes around where they stand
 * @param volts of every node, every part at its nominal value
 */
export function withDamp(
  { low, high }: Band,
  network: Network,
  quantity: Quantity,
  faults: readonly AppliedFault[],
  ohms: number,
  volts: Float64Array,
): Band {
  const share = ohms / (ohms + DAMP_OHMS);
  const towards = (least: number, most: number): Band => ({
    low: low + share * (Math.min(least, low) - low),
    high: high + share * (Math.max(most, high) - high),
  });
  if (quantity.load !== undefined) {
    // Microamperes make an LED glow; whatever else is watched needs a thousand times more.
    return isLed(network, quantity.load, faults) ? towards(0, GLOW * quantity.scale) : { low, high };
  }
  const battery = volts[network.points.get('bat+')!]!;
  const [a, b] = [volts[quantity.a]!, volts[quantity.b]!];
  return towards(Math.min(-b, a - battery), Math.max(battery - b, a));
}

/** As it is fitted now: a lamp of the drawing may hold an LED. */
function isLed(network: Network, load: number, faults: readonly AppliedFault[]): boolean {
  const fitted = faults.findLast((fault) => fault.kind === 'law' && fault.element === load);
  return (fitted?.kind === 'law' ? fitted : network.elements[load]!).law.kind === 'diode';
}
