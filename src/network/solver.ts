/**
 * Predicts how a network stands in a variant: volts of every node, relays, fuses. Everything that wants a prediction
 * (verdicts, next tests, the simulated vehicle) asks here.
 */
import { AppliedVariant } from './applied-variant.js';
import { coilConds } from './cond.js';
import type { FuseVerdict } from './fuse-rule.js';
import { judgeFuses } from './fuse-rule.js';
import { isLinear } from './laws.js';
import type { Network } from './network.js';
import { ReducedNetwork } from './reduced-network.js';
import type { CoilBand } from './relay-states.js';
import { settleRelays } from './relay-states.js';
import type { Rewired } from './rewired.js';
import { drawnSigns, rewire, rewiredElement, rewiredVariant } from './rewired.js';
import type { AddedElement, Outcome, Variant } from './solver-types.js';

/** Relay states and fuses are masks of 32-bit numbers. */
const MOST_BITS = 31;
/** Ways a network may stand that are followed up; a real one has two or three. */
const MOST_WAYS = 64;
/** Rewired networks that are kept: each is asked for many severities in a row, then hardly again. */
const MOST_REWIRED = 32;
/** Volts of effect below which the sign of a sensitivity is noise. */
const NO_EFFECT = 1e-10;

export interface Adjoint {
  /**
   * Which way V(a) − V(b) goes when an element moves towards its +1 edge (see `Variant.corner`): +1, −1, or 0 where it hardly
   * matters; network elements, then added ones.
   */
  readonly signs: Int8Array;
  /** Ohms of the network as seen from the two nodes, for small changes. */
  readonly ohms: number;
  /** Volts that one ampere fed in at the first node and taken out at the second adds at every node. */
  readonly response: Float64Array;
}

export class Solver {
  private readonly elements: AppliedVariant;
  private readonly bands: readonly CoilBand[];
  /** Elements with a curve of their own. */
  private readonly curved: readonly number[];
  private readonly usual: ReducedNetwork;
  /** Networks in which a fault gave a curve to an element that had none, by those elements. */
  private readonly unusual = new Map<string, ReducedNetwork>();
  private readonly fuseLoads: Float64Array;
  /** Solvers for networks that a bridge or crossed joints have rewired, the latest used last. */
  private readonly rewired = new Map<string, Solver>();

  /**
   * @param added meters, lamps and jumpers attached in every variant of this solver
   * @throws RangeError when the drawing has more than 31 fuses or 31 relays
   */
  constructor(
    private readonly network: Network,
    private readonly added: readonly AddedElement[] = [],
  ) {
    for (const [what, count] of [
      ['fuses', network.fuses.length],
      ['relays', network.coils.length],
    ] as const) {
      if (count > MOST_BITS) {
        throw new RangeError(
          `The drawing has ${count} ${what}; at most ${MOST_BITS} can be followed at once. Split it into smaller circuits.`,
        );
      }
    }
    this.elements = new AppliedVariant(network, added);
    this.curved = this.elements.laws.flatMap((law, i) => (isLinear(law) ? [] : [i]));
    this.usual = new ReducedNetwork(network.nodeNames.length, this.elements, this.curved);
    this.bands = network.coils.map((coil) => coilBand(network, coil));
    this.fuseLoads = new Float64Array(network.fuses.length);
  }

  /**
   * Every way in which the network can stand in this variant, at least one; with `forcedRelays` exactly one.
   */
  solve(variant: Variant): Outcome[] {
    const rewired = rewire(this.network, this.added, variant.faults);
    if (rewired) return this.handOver(rewired, variant, (solver, same) => solver.solve(same));
    const { blown, forcedRelays, start } = variant;
    if (forcedRelays !== undefined) return [this.stand(variant, forcedRelays, blown, start?.volts)];
    if (this.bands.length === 0) {
      const only = this.stand(variant, 0, blown, start?.volts);
      if (this.judge(only).mayBlow.length === 0) return [only];
    }
    return this.follow(variant);
  }

  /** Relays settle in milliseconds, a fuse takes longer: from each settled state the fuses are judged, and so on. */
  private follow(variant: Variant): Outcome[] {
    const outcomes: Outcome[] = [];
    const ways = [{ blown: variant.blown, relays: 0 }];
    const seen = new Set<string>();
    const known = new Map<string, Outcome>();
    for (const way of ways) {
      const states = new Map<number, Outcome>();
      const standing = (pulledIn: number) => {
        const name = `${way.blown} ${pulledIn}`;
        let outcome = known.get(name);
        if (outcome === undefined) {
          const near = [...states.values()].at(-1)?.volts ?? variant.start?.volts;
          known.set(name, (outcome = this.stand(variant, pulledIn, way.blown, near)));
        }
        states.set(pulledIn, outcome);
        return outcome;
      };
      const coilVolts = (pulledIn: number) => this.coilVolts(variant, standing(pulledIn));
      const { stable, chatter } = settleRelays(this.bands, coilVolts, way.relays);
      for (const [list, chatters] of [
        [stable, false],
        [chatter, true],
      ] as const) {
        for (const relays of list) {
          const name = `${way.blown} ${relays} ${chatters}`;
          if (seen.has(name)) continue;
          seen.add(name);
          const outcome = standing(relays);
          this.elements.apply(variant, relays, way.blown);
          const { mayHold, mayBlow } = this.judge(outcome);
          // A chattering relay feeds the fuse only part of the time, so it may hold at any current.
          if (mayHold || chatters) outcomes.push(chatters ? { ...outcome, chatters } : outcome);
          for (const fuses of mayBlow) {
            const room = ways.length < MOST_WAYS || outcomes.length === 0;
            if (room) ways.push({ blown: way.blown | fuses, relays });
          }
        }
      }
    }
    return outcomes;
  }

  /** Amperes from a to b inside an element (added ones follow the network's) as the network stands in an outcome. */
  current(outcome: Outcome, variant: Variant, element: number): number {
    const { elements } = this;
    const rewired = rewire(this.network, this.added, variant.faults);
    if (rewired) {
      const moved = rewiredElement(rewired, elements.count, element);
      return this.handOver(rewired, variant, (solver, same) => solver.current(outcome, same, moved));
    }
    elements.apply(variant, outcome.pulledIn, outcome.blown);
    return elements.amps(element, this.across(outcome, element));
  }

  /**
   * How V(a) − V(b) answers to small changes around an outcome. From the adjoint network (here the network itself, for it is
   * symmetric): S. W. Director, R. A. Rohrer, IEEE Trans. CT-16 (1969) 318 (from memory).
   */
  adjoint(outcome: Outcome, variant: Variant, a: number, b: number): Adjoint {
    const { elements } = this;
    const rewired = rewire(this.network, this.added, variant.faults);
    if (rewired) {
      const adjoint = this.handOver(rewired, variant, (solver, same) => solver.adjoint(outcome, same, a, b));
      return { ...adjoint, signs: drawnSigns(rewired, elements.count, adjoint.signs) };
    }
    elements.apply(variant, outcome.pulledIn, outcome.blown);
    const response = this.reduced().response(outcome.volts, a, b);
    const signs = new Int8Array(elements.count);
    for (let i = 0; i < signs.length; i++) {
      const volts = this.across(outcome, i);
      const gained = elements.amps(i, volts, 1) - elements.amps(i, volts, -1);
      const effect = -gained * (response[elements.a[i]!]! - response[elements.b[i]!]!);
      if (Math.abs(effect) > NO_EFFECT) signs[i] = Math.sign(effect);
    }
    return { signs, ohms: response[a]! - response[b]!, response };
  }

  /** Asks the solver of the rewired network, which is made on first use. */
  private handOver<T>(rewired: Rewired, variant: Variant, ask: (solver: Solver, same: Variant) => T): T {
    const { key, extra } = rewired;
    const solver = this.rewired.get(key) ?? new Solver(this.network, [...this.added, ...extra]);
    this.rewired.delete(key);
    this.rewired.set(key, solver);
    if (this.rewired.size > MOST_REWIRED) this.rewired.delete(this.rewired.keys().next().value!);
    return ask(solver, rewiredVariant(rewired, this.network, this.elements.count, variant));
  }

  private stand(variant: Variant, pulledIn: number, blown: number, start: Float64Array | undefined): Outcome {
    this.elements.apply(variant, pulledIn, blown);
    const volts = this.reduced().solve(start);
    if (typeof volts === 'number') {
      const site = this.network.elements[volts]?.site ?? 'the attached instrument';
      throw new Error(
        `Bug in knowngood: found no steady voltage across ${site}. Please report it with the circuit file and this step.`,
      );
    }
    return { volts, pulledIn, blown, chatters: false };
  }

  /** The network for the laws applied now. */
  private reduced(): ReducedNetwork {
    const { elements } = this;
    const more = elements.newlyCurved();
    if (more.length === 0) return this.usual;
    const name = more.join(' ');
    let reduced = this.unusual.get(name);
    if (reduced === undefined) {
      reduced = new ReducedNetwork(this.network.nodeNames.length, elements, [...this.curved, ...more]);
      this.unusual.set(name, reduced);
    }
    return reduced;
  }

  private across(outcome: Outcome, element: number): number {
    return outcome.volts[this.elements.a[element]!]! - outcome.volts[this.elements.b[element]!]!;
  }

  private coilVolts(variant: Variant, outcome: Outcome): Float64Array {
    this.elements.apply(variant, outcome.pulledIn, outcome.blown);
    return Float64Array.from(this.network.coils, (coil) =>
      Math.abs(this.elements.ownVolts(coil, this.across(outcome, coil))),
    );
  }

  /** The outcome's variant must be the one applied. */
  private judge(outcome: Outcome): FuseVerdict {
    const { elements, network, fuseLoads } = this;
    for (let i = 0; i < fuseLoads.length; i++) {
      const fuse = network.fuses[i]!;
      const law = elements.laws[fuse]!;
      const amps = Math.abs(elements.amps(fuse, this.across(outcome, fuse)));
      fuseLoads[i] = law.kind === 'fuse' ? amps / law.amps : 0;
    }
    return judgeFuses(fuseLoads);
  }
}

/** The band of a coil stands with the contacts it moves; one that moves none may as well stay at rest. */
function coilBand(network: Network, coil: number): CoilBand {
  for (const { law } of network.elements) {
    const band = law.kind === 'contact' && coilConds(law.closed).find((cond) => cond.coil === coil);
    if (band) return band;
  }
  return { pullInVolts: Infinity, dropOutVolts: Infinity };
}
