/** What a vehicle with a known fault would read in a test: over twenty draws of part values, by our solver and by ngspice. */
import { standingOf } from '../../src/diagnosis/evidence.js';
import { placedFaults, placedFuses } from '../../src/diagnosis/fitted.js';
import { probe } from '../../src/diagnosis/observe.js';
import type { Probe } from '../../src/diagnosis/observe.js';
import { glow, ratedVolts } from '../../src/diagnosis/read-out.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { damp, solveDamp } from './ngspice-physics.js';
import { drawPartValues } from '../../src/exercise/part-values.js';
import { random } from '../../src/exercise/random.js';
import { sourceElement } from '../../src/network/conditions.js';
import type { Network } from '../../src/network/network.js';
import { Solver } from '../../src/network/solver.js';
import { islands } from '../../src/planning/islands.js';
import type { AddedElement, AppliedFault, Outcome, Variant } from '../../src/network/solver-types.js';
import type { Reading } from '../../src/session/events.js';
import type { SetUp } from '../../src/session/setup.js';
import type { SpiceCase } from '../oracle/netlist.js';
import type { Ngspice } from '../oracle/ngspice.js';

/** A test that a person could do. */
export interface Question {
  readonly setUp: SetUp;
  readonly reading: Reading;
}

/** What ails a vehicle, and which of its fuses that has already blown (bit i = network.fuses[i]). */
export interface Ailing {
  readonly faults: readonly AppliedFault[];
  readonly blown: number;
}

export interface Span {
  readonly low: number;
  readonly high: number;
}

export const DRAWS = 20;
/** Above this an added resistance is an open circuit, so that points behind it read zero with no meter in the network. */
const OPEN_OHMS = 1e8;
const MOST_SOLVERS = 400;
/** Damp differs by so much between one vehicle and another. */
const DRIER = 30;

interface Vehicle {
  readonly network: Network;
  readonly solvers: Map<string, Solver>;
}

/** A question as the network sees it; the same for every fault. */
interface Prepared extends Question, Probe {
  /** What stands in the network when the meter is left out. */
  readonly bare: readonly AddedElement[];
  readonly source: AppliedFault;
  /** Equal for questions that one solve answers. */
  readonly key: string;
}

const MOST_REMEMBERED = 4000;

export class Predictions {
  /** The nominal vehicle, then twenty drawn ones. */
  private readonly vehicles: readonly Vehicle[];
  /** Something goes on and off too fast for one solve. */
  private readonly pulses: boolean;
  private readonly prepared = new WeakMap<Question, Prepared>();
  private readonly outcomes = new Map<string, readonly Outcome[]>();
  private readonly referred = new WeakMap<Question, Map<string, Promise<Span | undefined>>>();

  constructor(
    private readonly bench: Workbench,
    private readonly ngspice: Ngspice | undefined,
  ) {
    this.pulses = bench.network.elements.some(({ law }) => law.kind === 'contact' && law.duty !== undefined);
    const draw = random(20);
    // Filaments differ only from five to five draws: ngspice reads one netlist for all with the same curves.
    const filaments = Array.from(
      { length: 4 },
      (_, i) => drawPartValues(bench.network, draw, i === 0).network,
    );
    this.vehicles = Array.from({ length: DRAWS + 1 }, (_, i) => {
      if (i === 0) return { network: bench.network, solvers: new Map() };
      const own = drawPartValues(bench.network, draw, i % 4 === 0).network;
      const curves = filaments[i % 4]!;
      const elements = own.elements.map((element, at) => {
        const { law } = element;
        if (law.kind === 'curve' || law.kind === 'diode') return curves.elements[at]!;
        const drawing = bench.network.elements[at]!.law;
        const duty = drawing.kind === 'contact' ? drawing.duty : undefined;
        return law.kind === 'contact' && duty !== undefined ? { ...element, law: { ...law, duty } } : element;
      });
      return { network: { ...own, elements }, solvers: new Map() };
    });
  }

  /** With every part at its nominal value. Undefined where nothing is predicted. */
  nominal(question: Question, ailing: Ailing): Span | undefined {
    return this.span(question, ailing, this.vehicles.slice(0, 1));
  }

  /** Over the draws, by our solver. */
  drawn(question: Question, ailing: Ailing): Span | undefined {
    return this.span(question, ailing, this.vehicles);
  }

  /**
   * By ngspice with the meter attached; relays and fuses as the solver has them.
   * @param draws the nominal vehicle and so many drawn ones; a few say at a fifth of the cost that two faults are not apart
   */
  async reference(question: Question, ailing: Ailing, draws = DRAWS): Promise<Span | undefined> {
    const name = `${draws} ${ailing.blown} ${JSON.stringify(ailing.faults)}`;
    let known = this.referred.get(question);
    if (known === undefined) this.referred.set(question, (known = new Map()));
    let span = known.get(name);
    if (span === undefined) known.set(name, (span = this.refer(question, ailing, draws)));
    return span;
  }

  private async refer(question: Question, ailing: Ailing, draws: number): Promise<Span | undefined> {
    const asked = this.prepare(question);
    if (asked === undefined) return undefined;
    const vehicles = this.vehicles.slice(0, draws + 1);
    // A current is no voltage: it would need the element's own drop, which is too small to print.
    if (this.ngspice === undefined || asked.quantity.through !== undefined || this.pulses)
      return this.span(question, ailing, vehicles);
    const { a, b } = asked.quantity;
    const nodes = [a, b].filter((node) => node !== 0);
    const variant = this.variant(asked, ailing);
    const { added } = asked;
    const cases = vehicles.flatMap(({ network }): SpiceCase[] =>
      new Solver(network, added).solve(variant).map(({ pulledIn, blown, volts }) => ({
        network,
        added,
        variant,
        pulledIn,
        blown,
        guess: volts,
        nodes,
      })),
    );
    const solved = await this.inDamp(this.ngspice, cases).catch(() => inDampByOurs(cases));
    const values = solved.flatMap((volts) => read(asked, volts[a]! - volts[b]!, ailing.faults));
    return hull(this.floats(asked, variant) ? [...values, 0] : values);
  }

  /** Damp and nearly dry: what only its leaks would tell apart is one group. */
  private async inDamp(ngspice: Ngspice, cases: readonly SpiceCase[]): Promise<Float64Array[]> {
    return [...(await solveDamp(ngspice, cases)), ...(await solveDamp(ngspice, cases, DRIER))];
  }

  private span(
    question: Question,
    { faults, blown }: Ailing,
    vehicles: readonly Vehicle[],
  ): Span | undefined {
    const asked = this.prepare(question);
    if (asked === undefined) return undefined;
    const variant = this.variant(asked, { faults: faults.map(opened), blown });
    const { a, b, through } = asked.quantity;
    const name = `${blown} ${JSON.stringify(variant.faults)}`;
    const values: number[] = [];
    vehicles.forEach((vehicle, i) => {
      const key = `${i} ${asked.key} ${name}`;
      let outcomes = this.outcomes.get(key);
      if (outcomes === undefined) {
        if (this.outcomes.size > MOST_REMEMBERED) this.outcomes.clear();
        outcomes = solverOf(vehicle, asked.bare).solve(variant);
        this.outcomes.set(key, outcomes);
      }
      for (const outcome of outcomes) {
        const across =
          through === undefined
            ? outcome.volts[a]! - outcome.volts[b]!
            : solverOf(vehicle, asked.bare).current(outcome, variant, through);
        values.push(...read(asked, across, faults));
      }
    });
    return hull(this.floats(asked, variant) ? [...values, 0] : values);
  }

  /** Do the probes sit on pieces that only damp joins? What a voltmeter shows there is anybody's guess between nothing and that. */
  private floats({ quantity: { a, b }, reading, bare }: Prepared, variant: Variant): boolean {
    if (reading.kind !== 'volts') return false;
    const { network } = this.bench;
    return solverOf(this.vehicles[0]!, bare)
      .solve(variant)
      .some((outcome) => {
        const pieces = islands(network, variant, outcome, bare);
        return pieces[a] !== pieces[b];
      });
  }

  private prepare(question: Question): Prepared | undefined {
    let prepared = this.prepared.get(question);
    if (prepared !== undefined) return prepared;
    const { bench } = this;
    const { setUp, reading } = question;
    const asked = probe(bench, setUp, reading);
    if (asked === undefined) return undefined;
    const { source, added } = standingOf(bench, setUp);
    // Without the voltmeter one solve serves every point.
    const bare = reading.kind === 'volts' ? added : asked.added;
    const battery: AppliedFault = { kind: 'law', element: sourceElement(bench.network), law: source };
    const key = JSON.stringify([bare, asked.present.join(''), setUp.engine, [...setUp.fitted]]);
    prepared = { ...asked, setUp, reading, bare, source: battery, key };
    this.prepared.set(question, prepared);
    return prepared;
  }

  private variant({ setUp, present, source }: Prepared, { faults, blown }: Ailing): Variant {
    const { network } = this.bench;
    const own = placedFaults(network, setUp.fitted, faults);
    const element = sourceElement(network);
    const flat = own.some((fault) => fault.kind === 'law' && fault.element === element);
    return {
      present,
      faults: flat ? own : [source, ...own],
      blown: placedFuses(network, setUp.fitted, blown),
    };
  }
}

/** The same where ngspice finds no operating point, as with a body that hangs on leaks. */
function inDampByOurs(cases: readonly SpiceCase[]): Float64Array[] {
  return [1, DRIER].flatMap((times) =>
    cases.flatMap((one) => {
      const { network, added, variant } = damp(one, times);
      return new Solver(network, added).solve(variant).map(({ volts }) => volts);
    }),
  );
}

function solverOf({ network, solvers }: Vehicle, added: readonly AddedElement[]): Solver {
  const key = JSON.stringify(added);
  let solver = solvers.get(key);
  if (solver === undefined) {
    if (solvers.size >= MOST_SOLVERS) solvers.delete(solvers.keys().next().value!);
    solvers.set(key, (solver = new Solver(network, added)));
  }
  return solver;
}

function opened(fault: AppliedFault): AppliedFault {
  return fault.kind === 'series' && fault.ohms >= OPEN_OHMS ? { ...fault, ohms: Infinity } : fault;
}

/** The quantity as a person may read it; a load by the rated volts of what is fitted, an LED the wrong way round as dark. */
function read(
  { quantity, reading }: Prepared,
  across: number,
  faults: readonly AppliedFault[],
): readonly number[] {
  if (reading.kind === 'ohms' || reading.kind === 'continuity') return [across];
  const scale = ratedVolts(quantity, faults);
  const seen = glow(across, quantity, faults);
  return seen.map((volts) => (quantity.magnitude ? Math.abs(volts) : volts) / scale);
}

function hull(values: readonly number[]): Span {
  return { low: Math.min(...values), high: Math.max(...values) };
}
