/** Part values of one vehicle: every part somewhere inside its tolerance, as no two vehicles are alike. */
import { sourceElement } from '../network/conditions.js';
import type { Law, Network } from '../network/network.js';
import type { Draw } from './random.js';

export interface PartValues {
  /** Nodes, elements and names as in the drawing, so that numbers of one serve in the other. Contacts have lost their duty. */
  readonly network: Network;
  /** Contacts that are closed for a part of the time only, too fast for eye and meter: that part, 0 to 1. */
  readonly duties: ReadonlyMap<number, number>;
}

/** @param corners every value at one edge of its tolerance: the hardest vehicles */
export function drawPartValues(network: Network, draw: Draw, corners: boolean): PartValues {
  const between = (low: number, high: number) =>
    corners ? (draw() < 0.5 ? low : high) : low + (high - low) * draw();
  const duties = new Map<number, number>();
  // The battery's volts depend on the engine as well: see the vehicle.
  const source = sourceElement(network);
  const elements = network.elements.map((element) => {
    const { law } = element;
    if (law.kind === 'contact' && law.duty !== undefined)
      duties.set(element.index, between(law.duty.low, law.duty.high));
    return element.index === source ? element : { ...element, law: drawnLaw(law, between) };
  });
  return { network: { ...network, elements }, duties };
}

function drawnLaw(law: Law, between: (low: number, high: number) => number): Law {
  switch (law.kind) {
    case 'ohms':
    case 'fuse':
      return { ...law, ohms: between(law.low, law.high) };
    case 'contact': {
      const { kind, low, high, closed } = law;
      return { kind, low, high, closed, ohms: between(low, high) };
    }
    case 'curve':
      return {
        ...law,
        amps: law.amps * between(1 - law.spread, 1 + law.spread),
        cold: between(law.coldLow, law.coldHigh),
      };
    case 'diode':
      return { ...law, forwardVolts: law.forwardVolts + between(-law.spread, law.spread) };
    case 'source':
      return { ...law, volts: between(law.lowVolts, law.highVolts) };
  }
}
