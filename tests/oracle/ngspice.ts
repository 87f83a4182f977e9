/**
 * ngspice (as WebAssembly, npm eecircuit-engine) as an outside reference for the network solver.
 *
 * Parsing a netlist costs more than solving it. So cases that differ only in values share one netlist, and a control script
 * alters the values from case to case: about 3 ms a case instead of 10 with 140 elements.
 */
import type { Simulation } from 'eecircuit-engine';
import type { SpiceCase, SpiceParts } from './netlist.js';
import { spiceNode, spiceParts } from './netlist.js';

/** Stands for "not connected" where another case of the same netlist has a resistor; far above the leaks. */
const OPEN_OHMS = 1e18;
/** Lines that one run may print: the engine keeps two million characters. */
const MOST_PRINTED = 40_000;
/** Cases in one run: the control script grows with them, and a long one is read ever more slowly. */
const MOST_CASES = 400;
/** Runs after which a fresh engine is loaded: it frees little of what it has allocated. */
const MOST_RUNS = 300;
/** Its own conductance from each node to ground is 1e-12 S if left alone: forty floating nodes then show a millivolt on a meter of 10 Mohm. */
const OPTIONS = '.options reltol=1e-6 abstol=1e-12 vntol=1e-8 itl1=500 gmin=1e-14';

interface Prepared {
  readonly index: number;
  readonly spice: SpiceCase;
  readonly parts: SpiceParts;
  readonly nodes: readonly number[];
}

export class Ngspice {
  private readonly networks = new Map<object, number>();
  private runs = 0;

  private constructor(private simulation: Simulation) {}

  /** Loads the engine: about a second and 400 MB, so share one per test file. */
  static async start(): Promise<Ngspice> {
    return new Ngspice(await load());
  }

  /**
   * Volts against battery negative per node of every case, in the order given. Nodes that a case did not ask for are NaN;
   * asking for few is what makes it quick.
   * @throws when ngspice finds no operating point, with what it said
   */
  async solve(cases: readonly SpiceCase[]): Promise<Float64Array[]> {
    const results = await this.trySolve(cases);
    return results.map((found) => {
      if (typeof found === 'string') throw new Error(`ngspice gave no volts:\n${found}`);
      return found;
    });
  }

  /** The same; where ngspice finds no operating point, what it said stands in place of the volts. */
  async trySolve(cases: readonly SpiceCase[]): Promise<(Float64Array | string)[]> {
    const groups = new Map<string, Prepared[]>();
    cases.forEach((spice, index) => {
      const parts = spiceParts(spice);
      const nodes = (spice.nodes ?? [...spice.network.nodeNames.keys()]).filter((node) => node !== 0);
      const key = this.structure(spice, parts);
      const group = groups.get(key) ?? [];
      groups.set(key, group);
      group.push({ index, spice, parts, nodes });
    });
    const results: (Float64Array | string)[] = [];
    for (const group of groups.values()) {
      for (let first = 0; first < group.length;) {
        const chunk: Prepared[] = [];
        let printed = 0;
        while (
          first < group.length &&
          chunk.length < MOST_CASES &&
          (chunk.length === 0 || printed < MOST_PRINTED)
        ) {
          printed += group[first]!.nodes.length + 6;
          chunk.push(group[first++]!);
        }
        const found = this.read(chunk, await this.run(chunk));
        for (const [i, one] of chunk.entries()) results[one.index] = found[i] ?? (await this.again(one));
      }
    }
    return results;
  }

  /**
   * A case that ngspice could not settle from where the case before it stood: once more alone, starting from the guess. A guess
   * only shortens the way; where ngspice ends is its own.
   * @returns what ngspice said, when it finds no operating point from there either
   */
  private async again(one: Prepared): Promise<Float64Array | string> {
    const printed = await this.run([one], one.spice.guess);
    const [found] = this.read([one], printed);
    return found ?? [...this.simulation.getError(), printed.slice(-1500)].join('\n');
  }

  /** Equal for cases that one netlist can serve. */
  private structure({ network }: SpiceCase, { sources, curves }: SpiceParts): string {
    if (!this.networks.has(network)) this.networks.set(network, this.networks.size);
    const ends = [...sources].map(([name, { plus, minus }]) => [name, plus, minus]);
    return JSON.stringify([this.networks.get(network), ends, curves]);
  }

  /** One netlist for the chunk, one operating point per case. Returns what ngspice printed. */
  private async run(chunk: readonly Prepared[], guess?: Float64Array): Promise<string> {
    const ends = new Map<string, string>();
    for (const { parts } of chunk) {
      for (const [name, { a, b }] of parts.resistors) ends.set(name, `${a} ${b}`);
    }
    const { sources, curves } = chunk[0]!.parts;
    const lines = ['reference', ...curves];
    for (const [name, at] of ends) lines.push(`${name} ${at} ${OPEN_OHMS}`);
    for (const [name, { plus, minus }] of sources) lines.push(`${name} ${plus} ${minus} 0`);
    guess?.forEach((volts, node) => {
      if (node !== 0) lines.push(`.nodeset v(${spiceNode(node)})=${volts}`);
    });
    lines.push(OPTIONS, '.op', '.control', 'set numdgt=13');
    const now = new Map<string, number>();
    chunk.forEach(({ parts, nodes }, i) => {
      const alter = (name: string, value: number) => {
        if (now.get(name) === value) return;
        now.set(name, value);
        lines.push(`alter ${name} = ${value}`);
      };
      // Newton starts from the case before. A lamp that was lit and is now cut off would swing between huge volts, so every
      // case begins from a dead network.
      for (const name of sources.keys()) lines.push(`alter ${name} dc = 0`);
      if (i > 0) lines.push('op');
      for (const name of ends.keys()) alter(name, parts.resistors.get(name)?.ohms ?? OPEN_OHMS);
      for (const [name, { volts }] of parts.sources) lines.push(`alter ${name} dc = ${volts}`);
      lines.push('op', `echo case ${i}`);
      for (let n = 0; n < nodes.length; n += 20) {
        lines.push(
          `print ${nodes
            .slice(n, n + 20)
            .map((node) => `v(${spiceNode(node)})`)
            .join(' ')}`,
        );
      }
      lines.push('destroy all');
    });
    if (this.runs++ % MOST_RUNS === MOST_RUNS - 1) this.simulation = await load();
    this.simulation.setNetList([...lines, '.endc', '.end'].join('\n'));
    await this.simulation.runSim();
    return this.simulation.getInfo();
  }

  /** Volts per case; undefined where ngspice printed none. */
  private read(chunk: readonly Prepared[], printed: string): (Float64Array | undefined)[] {
    const sections = printed.split(/^case \d+$/m).slice(1);
    return chunk.map(({ spice, nodes }, i) => {
      const volts = new Float64Array(spice.network.nodeNames.length).fill(NaN);
      volts[0] = 0;
      for (const [, node, value] of (sections[i] ?? '').matchAll(/^v\(n(\d+)\) = (\S+)$/gm)) {
        volts[Number(node)] = Number(value);
      }
      return nodes.some((node) => Number.isNaN(volts[node])) ? undefined : volts;
    });
  }
}

async function load(): Promise<Simulation> {
  const { Simulation } = await import('eecircuit-engine');
  const simulation = new Simulation();
  await simulation.start();
  return simulation;
}
