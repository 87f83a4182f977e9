/**
 * A simulated vehicle for trials: part values drawn inside tolerance, one hidden fault, a meter with its error, fuses that stay
 * blown. Same solver as the program, other values than the program assumes.
 */
import type { Fault } from '../../src/diagnosis/faults.js';
import { canBlow } from '../../src/diagnosis/faults.js';
import { probe } from '../../src/diagnosis/observe.js';
import { ledBand, sightBand, WORDS } from '../../src/diagnosis/sights.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { ohmmeterReads } from '../../src/network/meters.js';
import type { Law, Network } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import type { AddedElement, Outcome } from '../../src/network/solver-types.js';
import type { Reading, Sight, Typed } from '../../src/session/events.js';
import type { SetUp } from '../../src/session/setup.js';
import { standingOf } from '../../src/diagnosis/evidence.js';

/** mulberry32: small seeded generator, public domain. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export class Car {
  private readonly network: Network;
  private readonly emfShare: number;
  private blown = 0;
  severity: number;

  constructor(
    private readonly bench: Workbench,
    readonly fault: Fault | undefined,
    private readonly draw: () => number,
    corners: boolean,
  ) {
    const between = (low: number, high: number) =>
      corners ? (draw() < 0.5 ? low : high) : low + (high - low) * draw();
    this.emfShare = draw();
    this.network = {
      ...bench.network,
      elements: bench.network.elements.map((element) => ({ ...element, law: drawn(element.law, between) })),
    };
    this.severity = fault === undefined ? 0 : drawSeverity(fault, draw);
    if (fault !== undefined && canBlow(fault) && draw() < 0.7)
      for (const setUp of this.drivenBefore()) this.visit(setUp);
  }

  private *drivenBefore(): Generator<SetUp> {
    for (const control of this.bench.circuit.controls.values()) {
      for (const position of control.positions) {
        const controls = new Map(
          [...this.bench.circuit.controls.values()].map((c) => [c.id, c.positions.at(-1)!]),
        );
        yield {
          controls: controls.set(control.id, position),
          engine: 'off',
          unplugged: new Set(),
          out: new Set(),
          jumpers: [],
        };
      }
    }
  }

  /** The vehicle stands in this set-up for a while: a fuse may blow. */
  visit(setUp: SetUp): void {
    const { added, present } = standingOf(this.bench, setUp);
    this.blown = this.stand(added, present, setUp).blown;
  }

  /** One way in which the vehicle now stands with this attached. */
  private stand(added: readonly AddedElement[], present: Uint8Array, setUp: SetUp, drift = 1): Outcome {
    const solver = new Solver(this.network, added);
    const faults =
      this.fault === undefined ? [] : [this.fault.apply(this.severity * (this.fault.contact ? drift : 1))];
    const source = this.network.elements.findIndex((element) => element.law.kind === 'source');
    const emf = this.emf(setUp, source);
    const own = faults.some((fault) => fault.kind === 'law' && fault.element === source);
    const list = own ? faults : [{ kind: 'law', element: source, law: emf } as const, ...faults];
    const outcomes = solver.solve({ present, faults: list, blown: this.blown });
    return outcomes[Math.floor(this.draw() * outcomes.length)]!;
  }

  /** Rested or charging, the emf stays where it was drawn in its band, within a tenth of a volt. */
  private emf(setUp: SetUp, source: number): Law {
    const { source: law } = standingOf(this.bench, setUp);
    const own = this.network.elements[source]!.law;
    if (law.kind !== 'source' || own.kind !== 'source') throw new Error('a battery is a source');
    const volts = law.lowVolts + this.emfShare * (law.highVolts - law.lowVolts) + 0.1 * (this.draw() - 0.5);
    return { ...own, volts: Math.min(law.highVolts, Math.max(law.lowVolts, volts)) };
  }

  /** What meter or eye gives for this question, as a person would type it; undefined where a meter would refuse (live line). */
  answer(setUp: SetUp, reading: Reading): Reading | undefined {
    const asked = probe(this.bench, setUp, reading)!;
    const drift = 1 + 0.13 * (2 * this.draw() - 1);
    const outcome = this.stand(asked.added, asked.present, setUp, drift);
    this.blown = outcome.blown;
    const { a, b } = asked.quantity;
    const across = outcome.volts[a]! - outcome.volts[b]!;
    switch (reading.kind) {
      case 'volts':
        return {
          ...reading,
          value: this.typed(across * (1 + 0.004 * (2 * this.draw() - 1)), [0.01, 0.01, 0.1, 1]),
        };
      case 'ohms': {
        const silent = this.stand(asked.unpowered!, asked.present, setUp, drift);
        if (Math.abs(silent.volts[a]! - silent.volts[b]!) > 0.004) return undefined;
        const ohms = ohmmeterReads(across) + 0.4 * this.draw();
        return {
          ...reading,
          value:
            ohms > 2e6
              ? 'OL'
              : this.typed(ohms * (1 + 0.008 * (2 * this.draw() - 1)), [
                  ohms < 200 ? 0.1 : 10 ** Math.floor(Math.log10(ohms) - 2),
                ]),
        };
      }
      case 'load': {
        const load = this.bench.network.loads.get(reading.load)!;
        return {
          ...reading,
          value: this.sight(load.kind, Math.abs(across) / this.rated(load.element, load.ratedVolts)),
        };
      }
      case 'test lamp': {
        const share = Math.abs(across) / asked.quantity.scale;
        const band =
          reading.lamp === 'LED' ? ledBand : (word: 'lit' | 'dim' | 'off') => sightBand('lamp', word);
        const fitting = (['lit', 'dim', 'off'] as const).filter(
          (word) => share >= band(word).low && share <= band(word).high,
        );
        return { ...reading, value: fitting[Math.floor(this.draw() * fitting.length)]! };
      }
      case 'amps':
        return { ...reading, value: this.typed(Math.abs(across) / asked.quantity.scale, [0.01, 0.1]) };
      default:
        return undefined;
    }
  }

  private rated(element: number, volts: number): number {
    const applied = this.fault?.apply(this.severity);
    return applied?.kind === 'law' && applied.element === element && applied.law.kind === 'curve'
      ? applied.law.volts
      : volts;
  }

  private typed(value: number, steps: readonly number[]): Typed {
    const step = steps[Math.floor(this.draw() * steps.length)]!;
    return { value: Math.round(value / step) * step, step };
  }

  /** Any word that a person could use for this: the bands overlap. */
  private sight(kind: 'lamp' | 'horn' | 'motor' | 'relay', share: number): Sight {
    const fitting = WORDS[kind].filter((word) => {
      const { low, high } = sightBand(kind, word);
      return share >= low && share <= high;
    });
    return fitting[Math.floor(this.draw() * fitting.length)]!;
  }
}

function drawn(law: Law, between: (low: number, high: number) => number): Law {
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
      return law;
  }
}

function drawSeverity(fault: Fault, draw: () => number): number {
  const { edges, unit } = fault.scale;
  const [low, high] = [edges[0]!, edges.at(-1)!];
  if (unit === 'none') return 0;
  if (unit === 'V') return low + (high - low) * draw();
  if (draw() < 0.3) return unit === 'ohm' && fault.kind === 'resistance' ? high : low;
  return low * (high / low) ** draw();
}
