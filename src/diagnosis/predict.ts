/**
 * The band in which a reading must lie if a hypothesis is true: every relay and fuse state that can be, every part anywhere in
 * its tolerance, any severity inside a box. One prediction serves verdicts, severities, rankings and planning.
 */
import { sourceLaw } from '../network/conditions.js';
import { LIVE_VOLTS } from '../network/meters.js';
import type { Law } from '../network/network.js';
import { brightOf, seenVolts } from '../network/phases.js';
import type { AppliedFault, Outcome, Variant } from '../network/solver-types.js';
import { brownsOut, isBattery } from './brown-out.js';
import { atBatteryEdges } from './battery-edges.js';
import { withDamp } from './damp.js';
import type { Standpoint } from './effect.js';
import { hasEffect, nodesOf } from './effect.js';
import { farCorners } from './far-corners.js';
import type { Fault } from './faults.js';
import { placedFaults } from './fitted.js';
import { underHeavyCurrent } from './heavy-current.js';
import { withLooseParts } from './loose-parts.js';
import type { Observation, Quantity } from './observe.js';
import type { Asked, Band, Question, QuestionMemory, State, StateBand } from './question.js';
import { faultKey, remembered, siteKey } from './question.js';
import { edgesFor, glow, magnitude, overRated, ratedVolts, readOut } from './read-out.js';
import { standpointsOf } from './standpoints.js';
import { withUnrest } from './unrest.js';
import type { Workbench } from './workbench.js';

/**
 * How much of its own width a corner band is widened for what the corners may have missed (our own figures): one from which nothing
 * farther was found hardly misses, one that was still moving may miss as much as it moved.
 */
const CORNER_MARGIN = { settled: 0.03, most: 0.15 };

const NOTHING_READ: Band = { low: 0, high: 0 };

/** Predicts one observation under chosen faults; what it solved is shared by all predictors of the same question. */
export class Predictor {
  private readonly memory: QuestionMemory;
  private readonly sourceIndex: number;

  constructor(
    private readonly bench: Workbench,
    private readonly observation: Question,
  ) {
    this.sourceIndex = bench.source;
    this.memory = remembered(bench, observation);
  }

  /**
   * Hull over all corners of a box of severities, per relay and fuse state seen at any corner (each corner is solved in every
   * such state). `corners`: the faults applied at each corner of the box; `blown`: fuses blown before. `nominal`: every part at
   * its nominal value, which lies inside the band and is quicker.
   */
  bands(corners: readonly (readonly AppliedFault[])[], blown: number, nominal = false): StateBand[] {
    const lists = this.distinct(corners, blown);
    const bands: StateBand[] = [];
    for (const { states, own } of lists) {
      for (let k = 0; k < own; k++) {
        const { pulledIn, blown: after } = states[k]!;
        if (bands.some((band) => band.pulledIn === pulledIn && band.blown === after)) continue;
        bands.push(this.hull(lists, pulledIn, after, nominal));
      }
    }
    if (corners.some((faults) => brownsOut(this.bench, this.observation, faults)))
      return bands.map((band) => ({ ...band, low: -Infinity, high: Infinity }));
    return withUnrest(bands, lists);
  }

  private hull(lists: readonly Asked[], pulledIn: number, blown: number, nominal: boolean): StateBand {
    let low = Infinity;
    let high = -Infinity;
    let widest = 0;
    for (const asked of lists) {
      const state = this.stateOf(asked, pulledIn, blown);
      const band = nominal ? state.nominal : (state.whole ??= this.wholeBand(asked.faults, pulledIn, blown));
      low = Math.min(low, band.low);
      high = Math.max(high, band.high);
      widest = Math.max(widest, band.high - band.low);
    }
    const gap = high - low === widest ? 0 : high - low - widest;
    const shown = this.observation.quantity.magnitude ? magnitude(low, high) : { low, high };
    const everywhere = lists.every(({ states, own }) =>
      states.some((state, k) => k < own && state.pulledIn === pulledIn && state.blown === blown),
    );
    return { pulledIn, blown, ...shown, gap, everywhere };
  }

  private stateOf(asked: Asked, pulledIn: number, blown: number): State {
    const known = asked.states.find((state) => state.pulledIn === pulledIn && state.blown === blown);
    if (known !== undefined) return known;
    const held = this.held(asked.faults, blown, pulledIn);
    const [outcome] = this.memory.solver.solve(held);
    const nominal = this.nominalBand(held, outcome!, asked.faults);
    const state: State = { pulledIn, blown, nominal, rests: false, staying: [] };
    asked.states.push(state);
    return state;
  }

  /**
   * A name shared by all faults that act alike in this question: those without effect, and those in one unbranched run.
   * Faults of one name, scale and drift have the same verdict on the observation. `blown`: fuses open beforehand.
   */
  actsAs(fault: Fault, blown: number): string {
    const { edges } = fault.scale;
    const ends = [edges[0]!, edges.at(-1)!].map((edge) => {
      const applied = fault.apply(edge);
      return 'ohms' in applied ? applied.ohms : '';
    });
    const scale = `${edges.length} ${ends.join(' ')} ${fault.contact}`;
    const [applied] = placedFaults(this.bench.network, this.observation.setUp.fitted, [
      fault.apply(fault.scale.edges[0]!),
    ]);
    if (applied !== undefined && this.observation.pinned && isBattery(this.bench, applied)) return fault.id;
    if (applied === undefined || !this.matters([], blown, applied)) return `none ${scale}`;
    switch (applied.kind) {
      case 'series':
        return `series ${this.memory.representative[applied.element]} ${scale}`;
      case 'shunt':
        return `shunt ${applied.node} ${scale}`;
      default:
        return fault.id;
    }
  }

  /** Whether the fault, at some severity, changes the answer when these are there already. */
  shows(others: readonly AppliedFault[], fault: Fault): boolean {
    const { network } = this.bench;
    const { fitted } = this.observation.setUp;
    const there = this.onRuns(placedFaults(network, fitted, others));
    return placedFaults(network, fitted, [fault.apply(fault.scale.edges[0]!)]).some((applied) =>
      this.matters(there, 0, applied),
    );
  }

  /** Remembers something worked out for this question, under a name. */
  remember<T>(name: string, make: () => T): T {
    const known = this.memory.other.get(name);
    if (known !== undefined) return known as T;
    const made = make();
    this.memory.other.set(name, made);
    return made;
  }

  /** Corners without the faults that do nothing here, moved to the representative of their run; each list once. */
  private distinct(corners: readonly (readonly AppliedFault[])[], blown: number): readonly Asked[] {
    const { network } = this.bench;
    const { fitted } = this.observation.setUp;
    const lists: Asked[] = [];
    for (const faults of corners) {
      const asked = this.ask(this.reduce(placedFaults(network, fitted, faults), blown), blown);
      if (!lists.includes(asked)) lists.push(asked);
    }
    return lists;
  }

  private reduce(faults: readonly AppliedFault[], blown: number): readonly AppliedFault[] {
    // For three at once the view from two would have to be solved for each pair: not worth it.
    if (faults.length <= 2) {
      for (const fault of faults) {
        const rest = faults.filter((other) => other !== fault);
        if (!this.matters(this.onRuns(rest), blown, fault)) return this.reduce(rest, blown);
      }
    }
    return this.onRuns(faults);
  }

  /** Series faults on the representative of their run, unless another fault attaches something inside a run. */
  private onRuns(faults: readonly AppliedFault[]): readonly AppliedFault[] {
    const { network } = this.bench;
    if (faults.length > 1 && faults.some((fault) => nodesOf(network, fault).length > 0)) return faults;
    return faults.map((fault) =>
      fault.kind === 'series' ? { ...fault, element: this.memory.representative[fault.element]! } : fault,
    );
  }

  /** Whether one more fault beside these changes the answer at any severity. */
  private matters(faults: readonly AppliedFault[], blown: number, fault: AppliedFault): boolean {
    const asked = this.ask(faults, blown);
    const site = siteKey(fault);
    let effect = asked.effects.get(site);
    if (effect === undefined) {
      asked.standpoints ??= this.standpoints(asked, blown);
      effect =
        this.observation.unread === true ||
        asked.chatters ||
        asked.flashes ||
        // What changes nothing now that a fuse is open may have kept it from blowing.
        asked.states.some((state, i) => i < asked.own && (state.blown & ~blown) !== 0) ||
        hasEffect(this.bench.network, this.observation.present, asked.standpoints, fault);
      asked.effects.set(site, effect);
    }
    return effect;
  }

  private standpoints({ states, own, faults }: Asked, blown: number): readonly Standpoint[] {
    const { solver } = this.memory;
    const mine = states.slice(0, own);
    const seen = mine.map(({ pulledIn, blown: after }) => this.held(faults, blown | after, pulledIn));
    // With all relays at rest nothing flows through it, and yet one that was pulled in before may feed its own coil through it.
    const left = solver.left.filter((mask) => mine.every(({ pulledIn }) => pulledIn !== mask));
    const fed = left.map((pulledIn) => this.held(faults, blown, pulledIn));
    return standpointsOf(this.bench.network, solver, this.observation.quantity, seen, fed);
  }

  private ask(faults: readonly AppliedFault[], blown: number): Asked {
    const key = `${faultKey(faults)}|${blown}`;
    const known = this.memory.asked.get(key);
    if (known !== undefined) return known;
    const variant = this.variant(faults, blown);
    const { solver } = this.memory;
    const plain = solver.solve(variant);
    const outcomes = [
      ...plain,
      ...atBatteryEdges(this.bench, solver, variant, plain, this.observation.added.length),
      ...underHeavyCurrent(this.bench, solver, variant, plain),
      ...withLooseParts(this.bench.network, solver, variant, plain),
    ];
    const states: State[] = [];
    // An eye judges both moments of a flasher by the bright one.
    const told =
      this.observation.quantity.seen === undefined ? outcomes : brightOf(outcomes, solver.flashers);
    for (const outcome of told) {
      const { pulledIn, blown: after } = outcome;
      if (states.some((state) => state.pulledIn === pulledIn && state.blown === after)) continue;
      const held = this.held(faults, after, pulledIn);
      const solved = outcomes.indexOf(outcome) < plain.length ? outcome : solver.solve(held)[0]!;
      const same = told.filter((other) => other.pulledIn === pulledIn && other.blown === after);
      const chattering = same.filter(({ chatters }) => chatters);
      states.push({
        pulledIn,
        blown: after,
        nominal: this.nominalBand(held, solved, faults),
        rests: chattering.length < same.length,
        staying: chattering.flatMap(({ staying = [] }) => staying),
      });
    }
    const asked: Asked = {
      faults,
      states,
      own: states.length,
      chatters: outcomes.some(({ chatters }) => chatters),
      // A meter on a flasher shows anything between its two moments; an eye sees the bright one.
      flashes:
        this.observation.quantity.seen === undefined && outcomes.some(({ phases }) => phases?.slow === true),
      effects: new Map(),
    };
    this.memory.asked.set(key, asked);
    return asked;
  }

  /** Relays and fuses kept in one state. A meter shows the moment it is, an eye waits for both moments of a flasher. */
  private held(faults: readonly AppliedFault[], blown: number, pulledIn: number): Variant {
    const still = this.observation.quantity.seen === undefined;
    return { ...this.variant(faults, blown), forcedRelays: pulledIn, still };
  }

  private variant(faults: readonly AppliedFault[], blown: number): Variant {
    const { pinned, source, present } = this.observation;
    const own = faults.some((fault) => isBattery(this.bench, fault));
    // Where the posts were read beside this reading, they are what they are, whatever ails the battery behind them.
    const kept = pinned ? faults.filter((fault) => !isBattery(this.bench, fault)) : faults;
    const replaced =
      !pinned && faults.some((fault) => fault.kind === 'law' && fault.element === this.sourceIndex);
    // A weak battery's posts say little of its emf: the narrowed band is for healthy ones only.
    const usual = !pinned && own ? this.usualSource() : source;
    const law = pinned || !faults.some(mayShort) ? usual : this.giving(usual);
    return {
      present,
      faults: replaced ? kept : [{ kind: 'law', element: this.sourceIndex, law }, ...kept],
      blown,
    };
  }

  /** The battery of which nothing is known yet. */
  private usualSource(): Law {
    const { network, circuit } = this.bench;
    return sourceLaw(network, circuit.nominalVolts, this.observation.setUp.engine);
  }

  /** Beside a running engine a battery has more ohms against a charge; what a short draws from it meets its own. */
  private giving(law: Law): Law {
    const own = this.bench.network.elements[this.sourceIndex]!.law;
    return law.kind === 'source' && own.kind === 'source' ? { ...law, ohms: own.ohms } : law;
  }

  /** The answer with every part at its nominal value; everything on a live line, where an ohmmeter shows nonsense. */
  private nominalBand(held: Variant, outcome: Outcome, faults: readonly AppliedFault[]): Band {
    const { unpowered, quantity, unread } = this.observation;
    if (unread === true) return NOTHING_READ;
    if (unpowered !== undefined && this.isLive(held, unpowered)) return { low: -Infinity, high: Infinity };
    if (quantity.minus !== undefined) {
      const apart = this.apart(outcome, faults);
      return { low: Math.min(...apart), high: Math.max(...apart) };
    }
    return overRated(this.readings(held, outcome), quantity, faults);
  }

  /** Everything the meter or the eye may make of one solved network, not yet scaled. */
  private readings(held: Variant, outcome: Outcome): number[] {
    const { quantity } = this.observation;
    const { solver } = this.memory;
    if (quantity.seen === undefined) return readOut(this.bench.network, solver, outcome, held, quantity);
    const { low, high } = seenVolts(outcome, quantity.a, quantity.b, quantity.seen);
    return [low, high].flatMap((volts) => glow(volts, quantity, held.faults));
  }

  /** Tolerance band with relays and fuses held in one state. */
  private wholeBand(faults: readonly AppliedFault[], pulledIn: number, blown: number): Band {
    const { unpowered, quantity, unread } = this.observation;
    if (unread === true) return NOTHING_READ;
    const { solver } = this.memory;
    const held = this.held(faults, blown, pulledIn);
    const nominal = solver.solve(held)[0]!;
    if (unpowered !== undefined && this.isLive(held, unpowered)) return { low: -Infinity, high: Infinity };
    if (quantity.minus !== undefined) return this.contrastBand(held, nominal, faults);
    const { a, b } = quantity;
    const answer = solver.adjoint(nominal, held, a, b);
    const signsAt = (outcome: Outcome, variant: Variant) =>
      edgesFor(quantity, outcome === nominal ? answer.signs : solver.adjoint(outcome, variant, a, b).signs);
    const corners = farCorners(solver, held, nominal, signsAt);
    const ways = corners.map((way) => way.map(({ variant, outcome }) => this.readings(variant, outcome)));
    const dry = widened(this.readings(held, nominal), ways);
    const { low, high } =
      unpowered !== undefined || quantity.through !== undefined
        ? dry
        : withDamp(dry, this.bench.network, quantity, faults, answer.ohms, nominal.volts);
    return overRated([low, high], quantity, faults);
  }

  /** By how much more of its rated volts the first load has than the second. */
  private apart({ volts }: Outcome, faults: readonly AppliedFault[]): number[] {
    const { quantity } = this.observation;
    const shares = (of: Quantity) =>
      glow(volts[of.a]! - volts[of.b]!, of, faults).map((seen) => Math.abs(seen) / ratedVolts(of, faults));
    return shares(quantity).flatMap((bright) => shares(quantity.minus!).map((dead) => bright - dead));
  }

  /** Difference of two loads: what both share moves both alike, so only elements that move them apart go to their edges. */
  private contrastBand(held: Variant, nominal: Outcome, faults: readonly AppliedFault[]): Band {
    const { quantity } = this.observation;
    const minus = quantity.minus!;
    const { solver } = this.memory;
    const signsAt = (outcome: Outcome, variant: Variant) => {
      const first = solver.adjoint(outcome, variant, quantity.a, quantity.b).signs;
      const second = solver.adjoint(outcome, variant, minus.a, minus.b).signs;
      return first.map((sign, i) => Math.sign(sign - second[i]!));
    };
    const corners = farCorners(solver, held, nominal, signsAt);
    const ways = corners.map((way) => way.map(({ outcome }) => this.apart(outcome, faults)));
    return widened(this.apart(nominal, faults), ways);
  }

  private isLive(held: Variant, unpowered: Observation['added']): boolean {
    const { a, b } = this.observation.quantity;
    const { volts } = this.bench.solver(unpowered).solve(held)[0]!;
    return Math.abs(volts[a]! - volts[b]!) > LIVE_VOLTS;
  }
}

/** Does it join what is apart in the drawing, so that more may flow than an alternator gives? */
function mayShort({ kind }: AppliedFault): boolean {
  return kind !== 'series';
}

/**
 * The band that holds all these readings, and what the corners may have missed.
 * @param ways readings at the corners on the way to either end
 */
function widened(nominal: readonly number[], ways: readonly (readonly (readonly number[])[])[]): Band {
  const values = [...nominal, ...ways.flat(2)];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const width = high - low;
  const moved = Math.max(...ways.map((way) => lastMove(way)));
  const { settled, most } = CORNER_MARGIN;
  const margin = Math.min(most * width, settled * width + moved);
  return { low: low - margin, high: high + margin };
}

/** How far the last look moved what is read. */
function lastMove(way: readonly (readonly number[])[]): number {
  const [before, last] = way.slice(-2);
  return Math.max(...last!.map((value, i) => Math.abs(value - before![i]!)));
}
