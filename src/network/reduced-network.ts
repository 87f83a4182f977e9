/**
 * Steady volts of a network whose contacts and fuses are already decided.
 *
 * The linear head is eliminated once; only the tail (where filaments, motors and diodes end) is repeated while those settle.
 * Every law rises with its voltage, so exactly one answer exists; see `shorten` for what reaches it when plain steps do not.
 */
import type { AppliedVariant } from './applied-variant.js';
import type { EliminationPlan } from './elimination-plan.js';
import { planElimination } from './elimination-plan.js';
import { lawEmf } from './laws.js';
import { BODY } from './network.js';
import { StarMesh } from './star-mesh.js';

/**
 * Siemens from every node to body metal, and from body to the battery's negative post. 100 GΩ is far above the leakage of any
 * dry loom and far below what a meter sees; without it the volts of a cut-off stretch would have no value at all.
 */
export const LEAK_SIEMENS = 1e-11;

/** Difference of an element's current from its law at which it has settled, relative and absolute (A). */
const SETTLED = 1e-10;
const SETTLED_AMPS = 1e-15;
/** Nor can a current be known better than the digits of its volts allow: this part of siemens × volts. */
const ROUNDING = 1e-14;
/** Change of an element's volts in one step above which Newton's tangent is not trusted and the chord is used. */
const LARGE_STEP = 0.3;
/** Amperes that no instrument shows: through a voltmeter of 10 MΩ they make a tenth of its last digit. */
const UNSEEN_AMPS = 1e-10;
/** Volts that no instrument shows: a diode at the very bend of its law may hop between them. */
const UNSEEN_VOLTS = 1e-7;
const PLAIN_STEPS = 20;
const ALL_STEPS = 400;

export class ReducedNetwork {
  private readonly plan: EliminationPlan;
  private readonly mesh: StarMesh;
  /** Slot of each element; −1 where both its ends are one node. */
  private readonly slots: Int32Array;
  private readonly linear: Int32Array;
  private readonly leaks: Float64Array;
  private readonly bodySlots: Int32Array;
  private readonly savedSiemens: Float64Array;
  private readonly savedAmps: Float64Array;
  // Per curved element: its last volts and amperes, the line drawn there (siemens, amperes at 0 V), whether to draw a chord next.
  private readonly at: Float64Array;
  private readonly flow: Float64Array;
  private readonly found: Float64Array;
  private readonly siemens: Float64Array;
  private readonly amps: Float64Array;
  private readonly chord: Uint8Array;
  private readonly before: Float64Array;

  /**
   * @param curved elements that are solved step by step (all whose law is or may become a curve or diode)
   * @param plainSteps steps before the slower, sure search begins
   */
  constructor(
    nodeCount: number,
    private readonly elements: AppliedVariant,
    private readonly curved: readonly number[],
    private readonly plainSteps = PLAIN_STEPS,
  ) {
    const { a, b, count } = elements;
    const edges: number[] = [];
    for (let i = 0; i < count; i++) edges.push(a[i]!, b[i]!);
    const plan = planElimination(
      nodeCount,
      edges,
      curved.flatMap((i) => [a[i]!, b[i]!]),
    );
    this.plan = plan;
    this.mesh = new StarMesh(plan);
    this.slots = Int32Array.from({ length: count }, (_, i) => (a[i] === b[i] ? -1 : plan.slot(a[i]!, b[i]!)));
    const steps = new Set(curved);
    this.linear = Int32Array.from([...this.slots.keys()].filter((i) => !steps.has(i) && this.slots[i]! >= 0));
    this.bodySlots = Int32Array.from({ length: nodeCount }, (_, i) => (i === BODY ? -1 : plan.slot(i, BODY)));
    this.leaks = new Float64Array(plan.slotCount);
    for (const slot of this.bodySlots) if (slot >= 0) this.leaks[slot] = LEAK_SIEMENS;
    this.savedSiemens = new Float64Array(plan.slotCount - plan.firstTailSlot);
    this.savedAmps = new Float64Array(plan.tail.length);
    this.at = new Float64Array(curved.length);
    this.flow = new Float64Array(curved.length);
    this.found = new Float64Array(curved.length);
    this.siemens = new Float64Array(curved.length);
    this.amps = new Float64Array(curved.length);
    this.chord = new Uint8Array(curved.length);
    this.before = new Float64Array(nodeCount);
  }

  /**
   * Volts of every node for the elements as they are applied now.
   * @param start volts of a like network, to begin from
   * @returns a new array, or the index of an element that never settled
   */
  solve(start: Float64Array | undefined): Float64Array | number {
    const { elements, curved, mesh, plan } = this;
    const { a, b } = elements;
    this.load();
    for (const i of elements.sources) {
      const law = elements.laws[i]!;
      const siemens = elements.siemens[i]!;
      if (law.kind !== 'source' || siemens === 0) continue;
      const fed = lawEmf(law, elements.edges[i]!) * siemens;
      mesh.amps[a[i]!] = mesh.amps[a[i]!]! - fed;
      mesh.amps[b[i]!] = mesh.amps[b[i]!]! + fed;
    }
    this.reduceHead();
    for (let k = 0; k < curved.length; k++) {
      const i = curved[k]!;
      const law = elements.laws[i]!;
      const rated = law.kind === 'curve' ? law.volts : 0;
      const volts = start ? start[a[i]!]! - start[b[i]!]! : rated;
      this.at[k] = volts;
      this.flow[k] = elements.amps(i, volts);
      this.chord[k] = start ? 0 : 1;
    }
    let restless = 0;
    for (let step = 0; step < ALL_STEPS; step++) {
      this.drawLines();
      this.solveTail();
      restless = this.misfit();
      if (restless < 0) {
        mesh.backSubstitute(0, plan.headSteps);
        return mesh.volts.slice();
      }
      if (step > this.plainSteps && this.shorten()) this.misfit();
      this.move(step < this.plainSteps);
    }
    // What hangs on nothing but leaks may swing for ever between volts that no current tells apart; no instrument draws so little.
    this.drawLines();
    this.solveTail();
    if (!(this.worst() <= UNSEEN_AMPS || this.swing() <= UNSEEN_VOLTS)) return restless;
    mesh.backSubstitute(0, plan.headSteps);
    return mesh.volts.slice();
  }

  /** Largest change of a volt since the step before. */
  private swing(): number {
    const { plan, mesh, before } = this;
    let most = 0;
    for (const node of plan.tail) {
      const change = Math.abs(mesh.volts[node]! - before[node]!);
      if (Number.isNaN(change)) return Infinity;
      most = Math.max(most, change);
    }
    return most;
  }

  /** Largest difference of a line from its curve at the new volts, amperes. */
  private worst(): number {
    let worst = 0;
    for (let k = 0; k < this.curved.length; k++) {
      const volts = this.across(this.curved[k]!);
      const off = this.siemens[k]! * volts + this.amps[k]! - this.elements.amps(this.curved[k]!, volts);
      worst = Math.max(worst, Math.abs(off));
    }
    return worst;
  }

  /**
   * Volts that one ampere fed into node `from` and taken out at node `to` would add everywhere, for small changes around
   * these volts: the adjoint of "volts between from and to", since the network is symmetric.
   */
  response(volts: Float64Array, from: number, to: number): Float64Array {
    const { elements, curved, mesh, plan } = this;
    this.load();
    mesh.amps[from] = mesh.amps[from]! + 1;
    mesh.amps[to] = mesh.amps[to]! - 1;
    this.reduceHead();
    for (let k = 0; k < curved.length; k++) {
      const i = curved[k]!;
      const across = volts[elements.a[i]!]! - volts[elements.b[i]!]!;
      this.siemens[k] = elements.slope(i, across, elements.amps(i, across));
      this.amps[k] = 0;
    }
    this.solveTail();
    mesh.backSubstitute(0, plan.headSteps);
    return mesh.volts.slice();
  }

  private load(): void {
    const { mesh, slots, linear, elements } = this;
    const values = mesh.siemens;
    values.set(this.leaks);
    for (let k = 0; k < linear.length; k++) {
      const i = linear[k]!;
      const slot = slots[i]!;
      values[slot] = values[slot]! + elements.siemens[i]!;
    }
    const { shunts } = elements;
    for (let k = 0; k < shunts.length; k += 2) {
      const slot = this.bodySlots[shunts[k]!]!;
      if (slot >= 0) values[slot] = values[slot]! + 1 / Math.max(shunts[k + 1]!, 1e-6);
    }
    mesh.amps.fill(0);
  }

  private reduceHead(): void {
    const { mesh, plan } = this;
    mesh.eliminate(0, plan.headSteps);
    this.savedSiemens.set(mesh.siemens.subarray(plan.firstTailSlot));
    for (let k = 0; k < plan.tail.length; k++) this.savedAmps[k] = mesh.amps[plan.tail[k]!]!;
  }

  /** Each curve as a straight line through its point: the tangent, or after a large step the chord. */
  private drawLines(): void {
    const { elements, curved, at } = this;
    for (let k = 0; k < curved.length; k++) {
      const volts = at[k]!;
      const amps = this.flow[k]!;
      const siemens = elements.slope(curved[k]!, volts, amps, this.chord[k] === 1);
      this.siemens[k] = siemens;
      this.amps[k] = amps - siemens * volts;
    }
  }

  private solveTail(): void {
    const { mesh, plan, slots, elements, curved } = this;
    mesh.siemens.set(this.savedSiemens, plan.firstTailSlot);
    for (let k = 0; k < plan.tail.length; k++) mesh.amps[plan.tail[k]!] = this.savedAmps[k]!;
    for (let k = 0; k < curved.length; k++) {
      const i = curved[k]!;
      const slot = slots[i]!;
      if (slot < 0) continue;
      mesh.siemens[slot] = mesh.siemens[slot]! + this.siemens[k]!;
      const a = elements.a[i]!;
      const b = elements.b[i]!;
      mesh.amps[a] = mesh.amps[a]! - this.amps[k]!;
      mesh.amps[b] = mesh.amps[b]! + this.amps[k]!;
    }
    mesh.eliminate(plan.headSteps, plan.nodeCount - 1);
    mesh.backSubstitute(plan.headSteps, plan.nodeCount - 1);
  }

  /** Volts across an element are no finer than the last digits of the volts at its two ends. */
  private lastDigit(element: number): number {
    const { volts } = this.mesh;
    const { a, b } = this.elements;
    return 2 * Number.EPSILON * Math.max(Math.abs(volts[a[element]!]!), Math.abs(volts[b[element]!]!));
  }

  private across(element: number): number {
    return this.mesh.volts[this.elements.a[element]!]! - this.mesh.volts[this.elements.b[element]!]!;
  }

  /** Compares each line with its curve at the new volts (whose amperes it keeps). Returns an element that is off, or −1. */
  private misfit(): number {
    const { elements, curved } = this;
    let restless = -1;
    for (let k = 0; k < curved.length; k++) {
      const volts = this.across(curved[k]!);
      const amps = elements.amps(curved[k]!, volts);
      this.found[k] = amps;
      const off = Math.abs(this.siemens[k]! * volts + this.amps[k]! - amps);
      const known =
        SETTLED_AMPS + this.siemens[k]! * (ROUNDING * Math.abs(volts) + this.lastDigit(curved[k]!));
      if (!(off <= SETTLED * Math.abs(amps) + known)) restless = curved[k]!;
    }
    return restless;
  }

  /** Makes the new volts the point where the next lines are drawn. */
  private move(mayChord: boolean): void {
    const { curved, at, plan, mesh } = this;
    for (let k = 0; k < curved.length; k++) {
      const volts = this.across(curved[k]!);
      const large = LARGE_STEP * Math.max(Math.abs(volts), Math.abs(at[k]!));
      this.chord[k] = mayChord && Math.abs(volts - at[k]!) > large ? 1 : 0;
      at[k] = volts;
      this.flow[k] = this.found[k]!;
    }
    for (let k = 0; k < plan.tail.length; k++) this.before[plan.tail[k]!] = mesh.volts[plan.tail[k]!]!;
  }

  /**
   * Shortens the last step to where the network's content (the potential whose gradient is the sum of currents at each node)
   * is least along it. With rising laws the content is strictly convex and Newton's direction leads downhill, so this
   * converges from anywhere; it costs more than plain steps and is only needed when several diodes switch each other.
   * Returns whether it did shorten it.
   */
  private shorten(): boolean {
    const { plan, mesh, elements, curved, before } = this;
    let linear = 0;
    for (let slot = plan.firstTailSlot; slot < plan.slotCount; slot++) {
      const [i, j] = [plan.ends[2 * slot]!, plan.ends[2 * slot + 1]!];
      const change = mesh.volts[i]! - before[i]! - (mesh.volts[j]! - before[j]!);
      linear += this.savedSiemens[slot - plan.firstTailSlot]! * change * change;
    }
    const slopeAt = (part: number) => {
      let slope = (part - 1) * linear;
      for (let k = 0; k < curved.length; k++) {
        const volts = this.at[k]!;
        const change = this.across(curved[k]!) - volts;
        const gained = elements.amps(curved[k]!, volts + part * change) - this.flow[k]!;
        slope += change * gained - this.siemens[k]! * change * change;
      }
      return slope;
    };
    if (slopeAt(1) <= 0) return false;
    let [low, high] = [0, 1];
    for (let i = 0; i < 50; i++) {
      const middle = (low + high) / 2;
      if (slopeAt(middle) > 0) high = middle;
      else low = middle;
    }
    for (const node of plan.tail)
      mesh.volts[node] = before[node]! + low * (mesh.volts[node]! - before[node]!);
    return true;
  }
}
