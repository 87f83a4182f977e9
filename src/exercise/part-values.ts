/** Part values of one vehicle: every part somewhere inside its tolerance, as no two vehicles are alike. */
import type { Law, Network } from '../network/network.js';
import type { Draw } from './random.js';

/**
 * The same network with drawn values; nodes, elements and names stay, so that numbers of one serve in the other.
 * @param corners every value at one edge of its tolerance: the hardest vehicles
 */
export function drawnNetwork(network: Network, draw: Draw, corners: boolean): Network {
  const between = (low: number, high: number) =>
    corners ? (draw() < 0.5 ? low : high) : low + (high - low) * draw();
  const elements = network.elements.map((element) => ({ ...element, law: drawnLaw(element.law, between) }));
  return { ...network, elements };
}

function drawnLaw(law: Law, between: (low: number, high: number) => number): Law {
  switch (law.kind) {
    case 'ohms':
    case 'contact':
    case 'fuse':
      return { ...law, ohms: between(law.low, law.high) };
    case 'curve':
      return {
        ...law,
        amps: law.amps * between(1 - law.spread, 1 + law.spread),
        cold: between(law.coldLow, law.coldHigh),
      };
    case 'diode':
      return { ...law, forwardVolts: law.forwardVolts + between(-law.spread, law.spread) };
    case 'source':
      // The battery's volts depend on the engine as well: see the vehicle.
      return law;
    default:
      return law;
  }
}
