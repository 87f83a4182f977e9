/** What a set-up does to the network: which contacts are closed, which joints are apart, what the battery gives. */
import type { Circuit } from '../circuit/circuit.js';
import { CHARGING } from './compile.js';
import type { Law, Network } from './network.js';

/** The part of a set-up that the network feels; the session's set-up has this shape. */
export interface Conditions {
  readonly controls: ReadonlyMap<string, string>;
  readonly engine: 'off' | 'running';
  readonly unplugged: ReadonlySet<string>;
  readonly out: ReadonlySet<string>;
}

/** Per element: 1 = connected in these conditions (see `Variant.present`). */
export function presence(circuit: Circuit, network: Network, conditions: Conditions): Uint8Array {
  const present = new Uint8Array(network.elements.length).fill(1);
  for (const element of network.elements) {
    const { law } = element;
    if (law.kind === 'contact' && law.closed.kind === 'control') {
      const position = conditions.controls.get(law.closed.control);
      if (position === undefined || !law.closed.positions.has(position)) present[element.index] = 0;
    }
    if (element.owner !== 'position') continue;
    const part = circuit.parts.get(element.part);
    const apart =
      part?.type === 'connector' ? conditions.unplugged.has(part.id) : conditions.out.has(element.part);
    if (apart) present[element.index] = 0;
  }
  return present;
}

/** Element of the first battery. */
export function sourceElement(network: Network): number {
  return network.elements.findIndex((element) => element.law.kind === 'source');
}

/** The battery as it stands with the engine off or charging. */
export function sourceLaw(network: Network, nominalVolts: number, engine: 'off' | 'running'): Law {
  const law = network.elements[sourceElement(network)]!.law;
  if (law.kind !== 'source' || engine === 'off') return law;
  return {
    kind: 'source',
    volts: CHARGING.volts * nominalVolts,
    lowVolts: CHARGING.low * nominalVolts,
    highVolts: CHARGING.high * nominalVolts,
    ohms: law.ohms,
  };
}
