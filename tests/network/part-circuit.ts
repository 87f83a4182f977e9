/** Small circuits around single parts, from the text of their parts and wires, and what the network says of them. */
import type { Circuit } from '../../src/circuit/circuit.js';
import { parseCircuit } from '../../src/files/circuit-file.js';
import { compile } from '../../src/network/compile.js';
import { presence, sourceElement, sourceLaw } from '../../src/network/conditions.js';
import type { Network } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { AddedElement, AppliedFault, Outcome, Variant } from '../../src/network/solver-types.js';

export interface SetUp {
  readonly controls?: Readonly<Record<string, string>>;
  readonly engine?: 'off' | 'running';
  readonly rested?: number;
  readonly out?: readonly string[];
  readonly faults?: readonly AppliedFault[];
  readonly added?: readonly AddedElement[];
  readonly blown?: number;
}

export interface PartCircuit {
  readonly circuit: Circuit;
  readonly network: Network;
  outcomes(setUp?: SetUp): Outcome[];
  /** The only outcome; more or fewer fail the test. */
  only(setUp?: SetUp): Outcome;
  volts(outcome: Outcome, red: string, black?: string): number;
  /** Amperes through the element at a site. */
  amps(outcome: Outcome, site: string, setUp?: SetUp): number;
  element(site: string): number;
  /** The site with ohms in series; Infinity = open. */
  series(site: string, ohms: number): AppliedFault;
}

/**
 * A battery G1 with its ground GP1 and a feed SP1 behind no fuse; wires of 2.5 mm² and 0.1 m, written `A to B`.
 * @param parts lines like `H1: {type: lamp, watts: 21 W}`, without their place
 */
export function partCircuit(
  parts: string,
  wires: readonly string[],
  controls = 'key: [off, on]',
  nominal = 12,
): PartCircuit {
  const own = parts.trim().split('\n');
  const text = [
    'circuit: part',
    'title: Demo of one part',
    `nominal: ${nominal} V`,
    'controls:',
    ...controls.split('\n').map((line) => `  ${line.trim()}`),
    'places:',
    '  bench: 1 min',
    'parts:',
    '  G1: {type: battery, place: bench}',
    '  GP1: {type: ground, place: bench}',
    '  SP1: {type: splice, place: bench}',
    ...own.map((line) => `  ${line.trim().replace(/\}$/, ', place: bench}')}`),
    'wires:',
    ...['G1.30 to SP1', 'G1.31 to GP1', ...wires].map((wire) => {
      const [from, to] = wire.split(' to ');
      return `  - {from: ${from}, to: ${to}, size: 2.5 mm2, length: 0.1 m}`;
    }),
  ].join('\n');
  const checked = parseCircuit(text);
  if ('problems' in checked) throw new Error(checked.problems.map(({ message }) => message).join('\n'));
  const { circuit } = checked;
  const network = compile(circuit);
  const solvers = new Map<string, Solver>();
  const solver = (added: readonly AddedElement[] = []) => {
    const key = JSON.stringify(added);
    if (!solvers.has(key)) solvers.set(key, new Solver(network, added));
    return solvers.get(key)!;
  };
  const variant = ({ controls: chosen = {}, engine = 'off', rested, out = [], ...rest }: SetUp): Variant => {
    const positions = new Map([...circuit.controls.values()].map((one) => [one.id, one.positions[0]!]));
    for (const [control, position] of Object.entries(chosen)) positions.set(control, position);
    const conditions = { controls: positions, engine, unplugged: new Set<string>(), out: new Set(out) };
    const present = presence(circuit, network, rested === undefined ? conditions : { ...conditions, rested });
    const source = sourceElement(network);
    const law = sourceLaw(network, nominal, engine);
    const faults: AppliedFault[] = [{ kind: 'law', element: source, law }, ...(rest.faults ?? [])];
    return { present, faults, blown: rest.blown ?? 0 };
  };
  const element = (site: string) => {
    const found = network.sites.get(site);
    if (found === undefined)
      throw new Error(`no site ${site}; there are: ${[...network.sites.keys()].join(', ')}`);
    return found;
  };
  const outcomes = (setUp: SetUp = {}) => solver(setUp.added).solve(variant(setUp));
  const node = (point: string) => {
    const found = network.points.get(point);
    if (found === undefined) throw new Error(`no point ${point}`);
    return found;
  };
  return {
    circuit,
    network,
    outcomes,
    only(setUp) {
      const found = outcomes(setUp);
      if (found.length !== 1) throw new Error(`${found.length} outcomes, not one`);
      return found[0]!;
    },
    volts: ({ volts }, red, black = 'bat-') => volts[node(red)]! - volts[node(black)]!,
    amps: (outcome, site, setUp = {}) => solver(setUp.added).current(outcome, variant(setUp), element(site)),
    element,
    series: (site, ohms) => ({ kind: 'series', element: element(site), ohms }),
  };
}

/** One number per outcome, in rising order. */
export function each(outcomes: readonly Outcome[], value: (outcome: Outcome) => number): number[] {
  return outcomes.map(value).sort((a, b) => a - b);
}
