/**
 * A network without contacts or wires, for examples whose milliohms or volts no circuit file can hold: the contacts of a
 * file would be as large as the fault in question, or the volts are beyond the 60 V of a circuit file.
 */
import type { Element, Law, Network } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { AppliedFault } from '../../src/network/solver-types.js';

/** `emf` from a (−) to b (+), `ohms` from a to b. Node 0 is the reference. */
export type Branch =
  | { readonly name: string; readonly a: number; readonly b: number; readonly ohms: number }
  | {
      readonly name: string;
      readonly a: number;
      readonly b: number;
      readonly emf: number;
      readonly inside: number;
    };

export interface BareReadings {
  /** Volts across a branch, a minus b. */
  volts(name: string): number;
  /** Amperes from a to b inside a branch. */
  amps(name: string): number;
}

/** Solves the branches with some of them open (`Infinity` in series) or of other ohms. */
export function solveBare(
  branches: readonly Branch[],
  faults: Readonly<Record<string, { readonly open: true } | { readonly ohms: number }>> = {},
): BareReadings {
  const elements = branches.map((branch, index): Element => {
    const { name, a, b } = branch;
    const law: Law = 'emf' in branch ? source(branch.emf, branch.inside) : fixed(branch.ohms);
    return { index, site: name, part: name, owner: 'item', a, b, law };
  });
  const nodes = 1 + Math.max(1, ...branches.flatMap(({ a, b }) => [a, b]));
  const network: Network = {
    nodeNames: Array.from({ length: nodes }, (_, i) => `node ${i}`),
    elements,
    points: new Map(),
    loads: new Map(),
    sites: new Map(elements.map(({ site, index }) => [site, index])),
    fuses: [],
    coils: [],
  };
  const applied = Object.entries(faults).map(([name, fault]): AppliedFault => {
    const element = network.sites.get(name)!;
    return 'open' in fault
      ? { kind: 'series', element, ohms: Infinity }
      : { kind: 'law', element, law: fixed(fault.ohms) };
  });
  const present = new Uint8Array(elements.length).fill(1);
  const solver = new Solver(network);
  const variant = { present, faults: applied, blown: 0 };
  const [outcome] = solver.solve(variant);
  const of = (name: string): Element => elements[network.sites.get(name)!]!;
  return {
    volts: (name) => outcome!.volts[of(name).a]! - outcome!.volts[of(name).b]!,
    amps: (name) => solver.current(outcome!, variant, of(name).index),
  };
}

function fixed(ohms: number): Law {
  return { kind: 'ohms', ohms, low: ohms, high: ohms };
}

function source(volts: number, ohms: number): Law {
  return { kind: 'source', volts, lowVolts: volts, highVolts: volts, ohms };
}
