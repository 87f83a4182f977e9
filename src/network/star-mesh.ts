/**
 * Elimination of nodes as star-mesh steps: a node and its star of conductances give way to a mesh among its neighbours.
 *
 * Only sums, products and quotients of positive conductances occur, never a difference, so 1e-11 S (an open with its leak)
 * beside 1e3 S (a good joint) keeps all its digits. An LU of the nodal matrix, and rank-one updates of it, lose them as soon
 * as an open isolates a stretch. Star-mesh transformation: A. Rosen, J. IEE 62 (1924) 916; the same steps, as a
 * subtraction-free elimination of Markov chains: Grassmann, Taksar, Heyman, Operations Research 33 (1985) 1107 (both from memory).
 */
import type { EliminationPlan } from './elimination-plan.js';

export class StarMesh {
  /** Siemens per slot. Fill before eliminating; the steps overwrite it. */
  readonly siemens: Float64Array;
  /** Amperes fed into each node; entry 0 is the reference and counts for nothing. */
  readonly amps: Float64Array;
  /** Result: volts of each node against node 0. */
  readonly volts: Float64Array;
  private readonly starOhms: Float64Array;

  constructor(readonly plan: EliminationPlan) {
    this.siemens = new Float64Array(plan.slotCount);
    this.amps = new Float64Array(plan.nodeCount);
    this.volts = new Float64Array(plan.nodeCount);
    this.starOhms = new Float64Array(plan.nodeCount);
  }

  /** Eliminates the nodes of steps `from` up to and without `to`. */
  eliminate(from: number, to: number): void {
    const { steps, starts } = this.plan;
    const { siemens, amps, starOhms } = this;
    let at = starts[from]!;
    const end = starts[to]!;
    while (at < end) {
      const node = steps[at]!;
      const first = at + 2;
      const last = first + 2 * steps[at + 1]!;
      let sum = 0;
      for (let i = first; i < last; i += 2) sum += siemens[steps[i]!]!;
      const ohms = 1 / sum;
      starOhms[node] = ohms;
      const fed = amps[node]!;
      let pair = last;
      for (let i = first; i < last; i += 2) {
        const share = siemens[steps[i]!]! * ohms;
        const other = steps[i + 1]!;
        amps[other] = amps[other]! + share * fed;
        for (let j = i + 2; j < last; j += 2) {
          const slot = steps[pair++]!;
          siemens[slot] = siemens[slot]! + share * siemens[steps[j]!]!;
        }
      }
      at = pair;
    }
  }

  /** Volts of the nodes of steps `to` − 1 down to `from`; later ones must be known. */
  backSubstitute(from: number, to: number): void {
    const { steps, starts } = this.plan;
    const { siemens, amps, volts, starOhms } = this;
    volts[0] = 0;
    for (let step = to - 1; step >= from; step--) {
      const at = starts[step]!;
      const node = steps[at]!;
      const last = at + 2 + 2 * steps[at + 1]!;
      let sum = amps[node]!;
      for (let i = at + 2; i < last; i += 2) sum += siemens[steps[i]!]! * volts[steps[i + 1]!]!;
      volts[node] = sum * starOhms[node]!;
    }
  }
}
