/**
 * What instruments read in a circuit file under chosen faults: the file goes through the program's own checks, the meters
 * are the program's own meters and the prediction is the program's own solver.
 */
import { fileURLToPath } from 'node:url';
import type { Circuit } from '../../src/circuit/circuit.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { compile } from '../../src/network/compile.js';
import { presence } from '../../src/network/conditions.js';
import { OHMMETER_VOLTS, ohmmeter, ohmmeterReads, VOLTMETER } from '../../src/network/meters.js';
import type { Element, Law, Network } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { AddedElement, AppliedFault, Outcome, Variant } from '../../src/network/solver-types.js';
import { atRest } from '../../src/session/setup.js';

/** A fault by the site it sits at: ohms added in series (Infinity = open), or another resistance in its place. */
export type Fault =
  | { readonly site: string; readonly seriesOhms: number }
  | { readonly site: string; readonly instead: number };

export const open = (site: string): Fault => ({ site, seriesOhms: Infinity });
export const added = (site: string, seriesOhms: number): Fault => ({ site, seriesOhms });
/** A dead short across an item: it follows Ohm's law with nothing. */
export const shorted = (site: string): Fault => ({ site, instead: 0 });
export const instead = (site: string, ohms: number): Fault => ({ site, instead: ohms });

export interface Conditions {
  readonly faults?: readonly Fault[];
  /** Control positions that differ from rest. */
  readonly controls?: Readonly<Record<string, string>>;
  /** Parts taken out. */
  readonly out?: readonly string[];
}

export interface Bench {
  readonly network: Network;
  /** Red minus black on the 10 MΩ voltmeter, or one of these ohms. */
  volts(red: string, black: string, conditions?: Conditions, meterOhms?: number): number;
  /** Ohms on the ohmmeter; Infinity = over its range. */
  ohms(red: string, black: string, conditions?: Conditions): number;
  /** Magnitude through a site with no meter attached (as by a clamp). */
  amps(site: string, conditions?: Conditions): number;
}

/** Reads tests/published/circuits/NAME.yaml; fails with the program's own messages when the checks refuse it. */
export async function bench(name: string): Promise<Bench> {
  const path = fileURLToPath(new URL(`circuits/${name}.yaml`, import.meta.url));
  const read = await readCircuit(path);
  if ('problems' in read) throw new Error(`${path} was refused: ${JSON.stringify(read.problems)}`);
  return benchOf(read.circuit);
}

function benchOf(circuit: Circuit): Bench {
  const network = compile(circuit);
  const node = (point: string): number => {
    const found = network.points.get(point);
    if (found === undefined) throw new Error(`${circuit.id} has no point ${point}`);
    return found;
  };
  const solve = (
    conditions: Conditions,
    attached: readonly AddedElement[],
  ): { solver: Solver; variant: Variant; outcome: Outcome } => {
    const rest = atRest(circuit);
    const present = presence(circuit, network, {
      ...rest,
      controls: new Map([...rest.controls, ...Object.entries(conditions.controls ?? {})]),
      out: new Set(conditions.out),
    });
    const faults = (conditions.faults ?? []).map((fault) => applied(network, fault));
    const solver = new Solver(network, attached);
    const variant = { present, faults, blown: 0 };
    const outcomes = solver.solve(variant);
    if (outcomes.length !== 1) throw new Error(`${circuit.id} can stand in ${outcomes.length} ways`);
    return { solver, variant, outcome: outcomes[0]! };
  };
  const between = ({ outcome }: { outcome: Outcome }, red: string, black: string): number =>
    outcome.volts[node(red)]! - outcome.volts[node(black)]!;
  return {
    network,
    volts(red, black, conditions = {}, meterOhms) {
      const law = meterOhms === undefined ? VOLTMETER : fixedOhms(meterOhms);
      return between(solve(conditions, [{ a: node(red), b: node(black), law }]), red, black);
    },
    ohms(red, black, conditions = {}) {
      const meter = { a: node(black), b: node(red), law: ohmmeter(OHMMETER_VOLTS) };
      return ohmmeterReads(between(solve(conditions, [meter]), red, black));
    },
    amps(site, conditions = {}) {
      const { solver, variant, outcome } = solve(conditions, []);
      return Math.abs(solver.current(outcome, variant, elementAt(network, site).index));
    },
  };
}

function applied(network: Network, fault: Fault): AppliedFault {
  const element = elementAt(network, fault.site).index;
  if ('seriesOhms' in fault) return { kind: 'series', element, ohms: fault.seriesOhms };
  return { kind: 'law', element, law: fixedOhms(fault.instead) };
}

function elementAt(network: Network, site: string): Element {
  const index = network.sites.get(site);
  if (index === undefined) throw new Error(`no site ${site}`);
  return network.elements[index]!;
}

function fixedOhms(ohms: number): Law {
  return { kind: 'ohms', ohms, low: ohms, high: ohms };
}
