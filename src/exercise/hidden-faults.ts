/** What is wrong with a vehicle, unknown to the person in front of it. */
import type { Fault } from '../diagnosis/faults.js';
import type { Draw } from './random.js';
import { pick, pickByWeight } from './random.js';

export interface HiddenFault {
  readonly fault: Fault;
  /** In the unit of the fault's own scale. */
  readonly severity: number;
  /** Away at times; touching its place may bring it or take it away. */
  readonly comesAndGoes: boolean;
}

/** Part of the faults that come and go; common practice, no source. */
const COMES_AND_GOES = 0.15;
/** Part of the draws at the far end of the scale: a clean break or a dead short is the usual case. */
const FAR_END = 0.3;

/** Different faults at different sites. Half by their odds, half any, so that rare ones are met too. */
export function drawFaults(faults: readonly Fault[], count: number, draw: Draw): HiddenFault[] {
  const hidden: HiddenFault[] = [];
  while (hidden.length < count) {
    const fault = draw() < 0.5 ? pick(draw, faults) : pickByWeight(draw, faults, ({ weight }) => weight);
    if (hidden.some((other) => other.fault.site === fault.site)) continue;
    hidden.push({ fault, severity: drawSeverity(fault, draw), comesAndGoes: draw() < COMES_AND_GOES });
  }
  return hidden;
}

/**
 * Any severity of the fault's scale: even in the logarithm for ohms, watts and amperes, even in volts. None at which the wire would have
 * burnt: nobody measures such a vehicle.
 */
export function drawSeverity({ scale, kind, burnsBelow = 0 }: Fault, draw: Draw): number {
  const { edges, unit } = scale;
  const [least, high] = [edges[0]!, edges.at(-1)!];
  if (unit === 'none') return 0;
  if (least <= 0 || unit === 'V') return least + (high - least) * draw();
  const low = Math.max(least, burnsBelow);
  if (draw() < FAR_END && low === least) return unit === 'ohm' && kind === 'resistance' ? high : low;
  return low * (high / low) ** draw();
}
