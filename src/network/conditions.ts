/** What a set-up does to the network: which contacts are closed, which joints are apart, what the battery gives. */
import type { Circuit } from '../circuit/circuit.js';
import { permits, singleConds, type Surroundings } from './cond.js';
import type { Law, Network } from './network.js';
import { BEING_CHARGED, CHARGING } from './part-laws.js';

/** The part of a set-up that the network feels; the session's set-up has this shape. */
export interface Conditions extends Surroundings {
  readonly unplugged: ReadonlySet<string>;
  readonly out: ReadonlySet<string>;
}

/** Per element: 1 = connected in these conditions (see `Variant.present`). */
export function presence(circuit: Circuit, network: Network, conditions: Conditions): Uint8Array {
  const present = new Uint8Array(network.elements.length).fill(1);
  for (const element of network.elements) {
    const { law } = element;
    if (law.kind === 'contact' && !permits(law.closed, conditions)) present[element.index] = 0;
    if (element.owner !== 'position') continue;
    const part = circuit.parts.get(element.part);
    const apart =
      part?.type === 'connector' ? conditions.unplugged.has(part.id) : conditions.out.has(element.part);
    if (apart) present[element.index] = 0;
  }
  return present;
}

/** Element of the first battery: the source straight on its negative post, where others (meters of their own) are not. */
export function sourceElement(network: Network): number {
  return network.elements.findIndex(({ law, site }) => law.kind === 'source' && site.endsWith(':emf'));
}

/** Does the drawing show what charges the battery? Then its volts come from there and not from the battery's law. */
export function hasAlternator(network: Network): boolean {
  return network.elements.some(
    ({ law }) => law.kind === 'contact' && singleConds(law.closed).some(({ kind }) => kind === 'engine'),
  );
}

/**
 * The battery as it stands with the engine off or running. Where no alternator is drawn, running means charging volts at the
 * posts; where one is drawn, the battery is only what the alternator charges: rested or with a surface charge, and with
 * more ohms, for it takes a charge less readily than it gives one.
 */
export function sourceLaw(network: Network, nominalVolts: number, engine: 'off' | 'running'): Law {
  const law = network.elements[sourceElement(network)]!.law;
  if (law.kind !== 'source' || engine === 'off') return law;
  const charged = hasAlternator(network);
  const band = charged ? BEING_CHARGED : CHARGING;
  return {
    kind: 'source',
    volts: band.volts * nominalVolts,
    lowVolts: band.low * nominalVolts,
    highVolts: band.high * nominalVolts,
    ohms: charged ? law.ohms * BEING_CHARGED.ohms : law.ohms,
  };
}
