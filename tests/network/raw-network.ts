/** Networks written straight as elements, for tests of the solver alone. Node 0 is battery negative, 1 body metal. */
import type { Element, Law, Network } from '../../src/network/network.js';
import type { Variant } from '../../src/network/solver-types.js';

export type Row = readonly [site: string, a: number, b: number, law: Law];

export function rawNetwork(rows: readonly Row[]): Network {
  const elements = rows.map(([site, a, b, law], index): Element => ({
    index,
    site,
    part: site,
    owner: 'item',
    a,
    b,
    law,
  }));
  const nodes = 1 + Math.max(1, ...rows.flatMap(([, a, b]) => [a, b]));
  const of = (kind: Law['kind']) => elements.filter(({ law }) => law.kind === kind).map(({ index }) => index);
  const coils = new Set<number>();
  for (const { law } of elements) {
    if (law.kind === 'contact' && law.closed.kind === 'coil') coils.add(law.closed.coil);
  }
  return {
    nodeNames: Array.from({ length: nodes }, (_, node) => `n${node}`),
    elements,
    points: new Map(),
    loads: new Map(),
    sites: new Map(elements.map(({ site, index }) => [site, index])),
    fuses: of('fuse'),
    coils: [...coils].sort((a, b) => a - b),
  };
}

export function variantOf(network: Network, changes: Partial<Variant> = {}): Variant {
  return { present: new Uint8Array(network.elements.length).fill(1), faults: [], blown: 0, ...changes };
}

/** Fixed ohms with a tolerance band of ± this fraction. */
export function ohms(value: number, tolerance = 0): Law {
  return { kind: 'ohms', ohms: value, low: value * (1 - tolerance), high: value * (1 + tolerance) };
}

export function battery(volts = 12.6, inner = 0.01): Law {
  return { kind: 'source', volts, lowVolts: volts - 1, highVolts: volts + 1, ohms: inner };
}

export function lamp(watts = 21, volts = 12): Law {
  return {
    kind: 'curve',
    volts,
    amps: watts / volts,
    exponent: 0.55,
    knee: 0.05,
    cold: 1 / 12,
    coldLow: 1 / 16,
    coldHigh: 1 / 9,
    spread: 0.12,
  };
}

export function motor(amps = 5, volts = 12): Law {
  return {
    kind: 'curve',
    volts,
    amps,
    exponent: 0.3,
    knee: 0.1,
    cold: 0.15,
    coldLow: 0.08,
    coldHigh: 0.2,
    spread: 0.35,
  };
}

export function diode(forwardVolts = 0.7): Law {
  return { kind: 'diode', forwardVolts, ohms: 0.05, spread: 0.2 };
}

export function fuse(amps: number): Law {
  return { kind: 'fuse', ohms: 0.005, low: 0.004, high: 0.008, amps };
}

/** A contact moved by the coil that is element number `coil`; pulls in at 8 V, drops out at 2 V unless told. */
export function relayContact(coil: number, rest: 'open' | 'closed' = 'open', pullIn = 8, dropOut = 2): Law {
  return {
    kind: 'contact',
    ohms: 0.01,
    low: 0.005,
    high: 0.02,
    closed: { kind: 'coil', coil, pullInVolts: pullIn, dropOutVolts: dropOut, rest },
  };
}
