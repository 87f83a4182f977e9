/** Short ways to ask, for tests: what would the last finding of a session have read under these faults? */
import type { Circuit } from '../../src/circuit/circuit.js';
import { observe, type Observation } from '../../src/diagnosis/observe.js';
import { Predictor } from '../../src/diagnosis/predict.js';
import { createWorkbench, type Workbench } from '../../src/diagnosis/workbench.js';
import type { AppliedFault } from '../../src/network/solver-types.js';
import type { Finding } from '../../src/session/case.js';
import type { Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';

export class Asked {
  readonly bench: Workbench;

  constructor(readonly circuit: Circuit) {
    this.bench = createWorkbench(circuit);
  }

  /** Findings of the lines, in order; throws on a line that is no event. */
  findings(...lines: readonly string[]): readonly Finding[] {
    const all: Recorded[] = [];
    for (const line of lines) {
      const parsed = parseLine(line, this.circuit, all);
      if (parsed.kind !== 'events')
        throw new Error(`${line}: ${parsed.kind === 'error' ? parsed.message : parsed.kind}`);
      for (const event of parsed.events) all.push({ number: all.length + 1, at: '', event });
    }
    return foldCase(this.circuit, all).timeline.flatMap((step) =>
      step.kind === 'finding' ? [step.finding] : [],
    );
  }

  /** Observations of the last finding. */
  observations(...lines: readonly string[]): readonly Observation[] {
    return observe(this.bench, this.findings(...lines).at(-1)!, []);
  }

  /** Band of an observation under faults: the hull over all ways in which the circuit can stand. */
  band(observation: Observation, ...faults: readonly AppliedFault[]): { low: number; high: number } {
    const bands = new Predictor(this.bench, observation).bands([faults], 0);
    return {
      low: Math.min(...bands.map(({ low }) => low)),
      high: Math.max(...bands.map(({ high }) => high)),
    };
  }

  /** Does every observation of the last finding agree with these faults? */
  agrees(lines: readonly string[], ...faults: readonly AppliedFault[]): boolean {
    return this.observations(...lines).every((observation) => {
      const { low, high } = this.band(observation, ...faults);
      return low <= observation.high && high >= observation.low;
    });
  }

  open(site: string, ohms = 1e11): AppliedFault {
    return { kind: 'series', element: this.site(site), ohms };
  }

  short(site: string, ohms = 0.01): AppliedFault {
    return { kind: 'shunt', node: this.bench.network.elements[this.site(site)]!.b, ohms };
  }

  site(site: string): number {
    const element = this.bench.network.sites.get(site);
    if (element === undefined) throw new Error(`no site ${site}`);
    return element;
  }
}
