/**
 * Predicts how a network stands in a variant: volts of every node, relays, fuses. Everything that wants a prediction
 * (verdicts, next tests, the simulated vehicle) asks here.
 */
import { AppliedVariant } from './applied-variant.js';
import { AT_REST, coilBand, movedBy } from './coil-bands.js';
import type { FuseVerdict } from './fuse-rule.js';
import { CURRENTS, fuseLoad, judgeFuses, resetsOf } from './fuse-rule.js';
import { isLinear } from './laws.js';
import type { Network } from './network.js';
import { ReducedNetwork } from './reduced-network.js';
import type { CoilBand } from './relay-states.js';
import { settleRelays } from './relay-states.js';
import type { Rewired } from './rewired.js';
import { drawnSigns, rewire, rewiredElement, rewiredVariant } from './rewired.js';
import type { AddedElement, Outcome, PhaseStep, Variant } from './solver-types.js';

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
  /** Masks in which relays may have been left by what was done before. */
  readonly left: readonly number[];
  /** Contacts that each coil moves. */
  private readonly moved: readonly (readonly number[])[];
  /** Coils that go in and out by themselves, and fuses that close again by themselves, as masks. */
  readonly flashers: number;
  readonly closeAgain: number;
  /** Solvers for networks that a bridge or crossed joints have rewired, the latest used last. */
  private readonly rewired = new Map<string, Solver>();

  /**
   * @param added meters, lamps and jumpers attached in every variant of this solver
   * @throws RangeError when the drawing has more than 31 fuses, or 31 relays and what modules and flashers count as such
   */
  constructor(
    private readonly network: Network,
    private readonly added: readonly AddedElement[] = [],
  ) {
    for (const [what, count] of [
      ['fuses', network.fuses.length],
      [network.scans?.size ? 'relays and module states' : 'relays', network.coils.length],
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
    this.moved = network.coils.map((coil) => movedBy(network, coil));
    this.flashers = maskOf(this.bands, ({ manner }) => manner === 'alternating');
    this.closeAgain = maskOf(network.fuses, (fuse) => resetsOf(network, fuse) === 'automatic');
    this.left = leftBy(network, this.bands);
    this.fuseLoads = new Float64Array(network.fuses.length);
  }

  /**
   * Every way in which the network can stand in this variant, at least one; with `forcedRelays` exactly one.
   */
  solve(variant: Variant): Outcome[] {
    const rewired = rewire(this.network, this.added, variant.faults);
    if (rewired) return this.handOver(rewired, variant, (solver, same) => solver.solve(same));
    const { blown, forcedRelays, start } = variant;
    if (forcedRelays !== undefined) {
      const stand = (pulledIn: number) => this.stand(variant, pulledIn, blown, start?.volts);
      const outcome = stand(forcedRelays);
      return [variant.still ? outcome : this.withFlashing(outcome, stand)];
    }
    if (this.bands.length === 0 && (blown & this.closeAgain) === 0) {
      const only = this.stand(variant, 0, blown, start?.volts);
      if (this.judge(only).mayBlow.length === 0) return [only];
      return this.follow(variant, only);
    }
    return this.follow(variant);
  }

  /**
   * Relays settle in milliseconds, a fuse takes longer: from each settled state the fuses are judged, and so on.
   * @param atRest how it stands with every relay at rest, where that was solved already
   */
  private follow(variant: Variant, atRest?: Outcome): Outcome[] {
    const outcomes: Outcome[] = [];
    const ways = subsets(variant.blown & this.closeAgain).map((cooled) => ({
      blown: variant.blown & ~cooled,
      relays: 0,
    }));
    const seen = new Set<string>();
    const known = new Map<string, Outcome>();
    if (atRest !== undefined) known.set(`${variant.blown} 0`, atRest);
    const bands = this.bandsIn(variant);
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
      const { stable, chatter, staying } = settleRelays(bands, coilVolts, way.relays, this.left);
      const judged = (relays: number) => {
        const outcome = standing(relays);
        this.elements.apply(variant, relays, way.blown);
        const verdict = this.judge(outcome);
        // A breaker closes again and again.
        const recloses = verdict.mayBlow.every((fuses) => (fuses & ~this.closeAgain) === 0);
        return { ...verdict, outcome, recloses };
      };
      const visit = (relays: number, chatters: boolean, holds: boolean): void => {
        const name = `${way.blown} ${relays} ${chatters} ${holds}`;
        if (seen.has(name)) return;
        seen.add(name);
        const { outcome, mayHold, mayBlow, recloses } = judged(relays);
        if (chatters ? holds : mayHold || recloses) {
          const whole = this.withFlashing(outcome, standing);
          outcomes.push(chatters ? { ...whole, chatters, staying } : whole);
        }
        for (const fuses of mayBlow) {
          const room = ways.length < MOST_WAYS || outcomes.length === 0;
          if (room) ways.push({ blown: way.blown | fuses, relays });
        }
      };
      for (const relays of stable) visit(relays, false, true);
      for (const round of chatter) {
        const holds = round.every((relays) => {
          const { mayHoldPulses, recloses } = judged(relays);
          return mayHoldPulses || recloses;
        });
        for (const relays of round) visit(relays, true, holds);
      }
    }
    return outcomes;
  }

  /** Coils whose contacts the set-up keeps open (an alternator at rest) stay at rest. */
  private bandsIn({ present }: Variant): readonly CoilBand[] {
    if (!this.moved.some((contacts) => contacts.every((contact) => present[contact] === 0)))
      return this.bands;
    return this.bands.map((band, i) =>
      this.moved[i]!.every((contact) => present[contact] === 0) ? AT_REST : band,
    );
  }

  /**
   * Coils, by their bits, that might stand otherwise if their volts were between these shares of what they are. Where something chatters
   * or pulses too fast to follow all may; the two moments of a flasher are outcomes of their own.
   */
  coilsNearEdge(variant: Variant, outcome: Outcome, low: number, high: number): readonly number[] {
    const swings = outcome.chatters || (outcome.phases?.steps.length ?? 0) > 0;
    const rewired = rewire(this.network, this.added, variant.faults);
    if (rewired)
      return this.handOver(rewired, variant, (solver, same) =>
        solver.coilsNearEdge(same, outcome, low, high),
      );
    const volts = this.coilVolts(variant, outcome);
    return this.bandsIn(variant).flatMap(({ pullInVolts, dropOutVolts, manner }, i) => {
      if (swings) return [i];
      // What may be in either state at any volts is in both already; what moves nothing matters to nobody.
      if (pullInVolts === Infinity) return [];
      if (manner !== undefined) return [i];
      const pulled = ((outcome.pulledIn >>> i) & 1) === 1;
      return (pulled ? low * volts[i]! <= pullInVolts : high * volts[i]! >= dropOutVolts) ? [i] : [];
    });
  }

  /** Volts V(a) − V(b) of an element itself, without the ohms that a fault has put in series with it. */
  ownVolts(outcome: Outcome, variant: Variant, element: number): number {
    return this.meanOf('ownVolts', outcome, variant, element);
  }

  /** Amperes from a to b inside an element (added ones follow the network's) as the network stands in an outcome. */
  current(outcome: Outcome, variant: Variant, element: number): number {
    return this.meanOf('amps', outcome, variant, element);
  }

  /** Mean over the moments of an outcome of what an element makes of the volts at its ends. */
  private meanOf(what: 'amps' | 'ownVolts', outcome: Outcome, variant: Variant, element: number): number {
    const { elements } = this;
    const rewired = rewire(this.network, this.added, variant.faults);
    if (rewired) {
      const moved = rewiredElement(rewired, elements.count, element);
      return this.handOver(rewired, variant, (solver, same) => solver.meanOf(what, outcome, same, moved));
    }
    elements.apply(variant, outcome.pulledIn, outcome.blown);
    let mean = 0;
    for (const { share, volts, open } of stepsOf(outcome)) {
      for (const contact of open) elements.open(contact);
      mean += share * elements[what](element, this.between(volts, element));
    }
    return mean;
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
    const signs = new Int8Array(elements.count);
    const effects = new Float64Array(elements.count);
    let response: Float64Array | undefined;
    for (const { share, volts, open } of stepsOf(outcome)) {
      for (const contact of open) elements.open(contact);
      const own = this.reduced().response(volts, a, b);
      for (let i = 0; i < signs.length; i++) {
        const across = this.between(volts, i);
        const gained = elements.amps(i, across, 1) - elements.amps(i, across, -1);
        effects[i] = effects[i]! - share * gained * (own[elements.a[i]!]! - own[elements.b[i]!]!);
      }
      response = share === 1 ? own : sum(response, own, share);
    }
    const { steps } = outcome.phases ?? { steps: [] };
    if (steps.length > 0) {
      // A contact that is closed for longer brings the mean nearer to the volts while it is closed.
      const [on, off] = [steps[0]!, steps.at(-1)!].map(({ volts }) => volts[a]! - volts[b]!);
      for (const i of steps.at(-1)!.open) effects[i] = on! - off!;
    }
    for (let i = 0; i < signs.length; i++)
      if (Math.abs(effects[i]!) > NO_EFFECT) signs[i] = Math.sign(effects[i]!);
    return { signs, ohms: response![a]! - response![b]!, response: response! };
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
    const { elements } = this;
    elements.apply(variant, pulledIn, blown);
    const pulsing = elements.pulsing();
    const on = this.voltsNow(start);
    if (pulsing.length === 0) return { volts: on, pulledIn, blown, chatters: false };
    // They are taken to close at the same moment: those that stay closed for less time open one after the other.
    const steps: PhaseStep[] = [];
    let closed = 0;
    let volts = on;
    for (let left = pulsing.length; left >= 0; left--) {
      if (left < pulsing.length) {
        elements.open(pulsing[left]!);
        volts = this.voltsNow(volts);
      }
      const until = left === 0 ? 1 : elements.duty(pulsing[left - 1]!);
      steps.push({ share: until - closed, volts, open: pulsing.slice(left) });
      closed = until;
    }
    const mean = steps.reduce<Float64Array | undefined>(
      (all, step) => sum(all, step.volts, step.share),
      undefined,
    );
    return { volts: mean!, phases: { on, off: volts, slow: false, steps }, pulledIn, blown, chatters: false };
  }

  /** The outcome with both states of its flashers, if there are any. */
  private withFlashing(outcome: Outcome, standing: (pulledIn: number) => Outcome): Outcome {
    const { flashers } = this;
    if (flashers === 0) return outcome;
    const at = (pulledIn: number) => (pulledIn === outcome.pulledIn ? outcome : standing(pulledIn));
    const on = at(outcome.pulledIn | flashers);
    const off = at(outcome.pulledIn & ~flashers);
    const steps = outcome.phases?.steps ?? [];
    return {
      ...outcome,
      phases: { on: on.phases?.on ?? on.volts, off: off.phases?.off ?? off.volts, slow: true, steps },
    };
  }

  private voltsNow(start: Float64Array | undefined): Float64Array {
    const volts = this.reduced().solve(start);
    if (typeof volts !== 'number') return volts;
    const site = this.network.elements[volts]?.site ?? 'the attached instrument';
    throw new Error(
      `Bug in knowngood: found no steady voltage across ${site}. Please report it with the circuit file and this step.`,
    );
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
    return this.between(outcome.volts, element);
  }

  private between(volts: Float64Array, element: number): number {
    return volts[this.elements.a[element]!]! - volts[this.elements.b[element]!]!;
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
      fuseLoads[i] = law.kind === 'fuse' ? fuseLoad(law, amps) : 0;
    }
    return judgeFuses(fuseLoads, CURRENTS);
  }
}

/** Steps over which an outcome is a mean; one that is none is its only step. */
function stepsOf(outcome: Outcome): readonly PhaseStep[] {
  const steps = outcome.phases?.steps ?? [];
  return steps.length > 0 ? steps : [{ share: 1, volts: outcome.volts, open: [] }];
}

function sum(all: Float64Array | undefined, more: Float64Array, share: number): Float64Array {
  const made = all ?? new Float64Array(more.length);
  for (let i = 0; i < made.length; i++) made[i] = made[i]! + share * more[i]!;
  return made;
}

/** Each relay pulled in alone, or module awake alone, and everything together: what may be left of the set-up before. */
function leftBy({ coils, elements, loads }: Network, bands: readonly CoilBand[]): readonly number[] {
  const relays = new Set([...loads.values()].map(({ element }) => element));
  const remembers = (coil: number) => relays.has(coil) || elements[coil]!.site.endsWith(':supply');
  const each = coils.flatMap((coil, i) => (remembers(coil) ? [1 << i] : []));
  return [...new Set([...each, maskOf(bands, ({ manner }) => manner === undefined)])];
}

function maskOf<T>(list: readonly T[], has: (one: T) => boolean): number {
  return list.reduce((mask, one, i) => (has(one) ? mask | (1 << i) : mask), 0);
}

/** Every mask within a mask, the empty one first. */
function subsets(mask: number): number[] {
  const found = [0];
  for (let rest = mask; rest !== 0; rest &= rest - 1) {
    const bit = rest & -rest;
    found.push(...found.map((one) => one | bit));
  }
  return found;
}
