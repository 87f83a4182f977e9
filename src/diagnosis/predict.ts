/**
 * The band in which a reading must lie if a hypothesis is true: every relay and fuse state that can be, every part anywhere in
 * its tolerance, any severity inside a box. One prediction serves verdicts, severities, rankings and planning.
 */
import { LIVE_VOLTS } from '../network/meters.js';
import { sourceElement } from '../network/conditions.js';
import type { AppliedFault, Outcome, Variant } from '../network/solver-types.js';
import type { Observation, Quantity } from './observe.js';
import type { Workbench } from './workbench.js';

/** Band of the quantity in one relay and fuse state. */
export interface StateBand {
  readonly pulledIn: number;
  /** Fuses blown when the reading settles. */
  readonly blown: number;
  readonly low: number;
  readonly high: number;
}

/** How much of its own width a corner band is widened: the corner picked by the signs at nominal can miss the true one. */
const CORNER_MARGIN = 0.15;
/** A point may leak to its surroundings through damp dirt with as little as this; a floating point then reads volts. */
const DAMP_OHMS = 1e6;

/** Observations whose predictions are kept: a session is judged anew after each finding, mostly on the findings before. */
const MOST_REMEMBERED = 80;

interface Asked {
  readonly outcomes: readonly Outcome[];
  readonly bands: Map<string, { low: number; high: number }>;
}

type Question = Pick<Observation, 'added' | 'unpowered' | 'present' | 'source' | 'pinned' | 'quantity'>;

/** Predicts one observation under chosen faults; remembers what it solved. Make one per observation and set of fault sites. */
export class Predictor {
  private readonly memo: Map<string, Asked>;
  private readonly sourceIndex: number;

  constructor(
    private readonly bench: Workbench,
    private readonly observation: Pick<
      Observation,
      'added' | 'unpowered' | 'present' | 'source' | 'pinned' | 'quantity'
    >,
  ) {
    this.sourceIndex = sourceElement(bench.network);
    this.memo = remembered(bench, observation);
  }

  /**
   * Hull over all corners of a box of severities, per relay and fuse state seen at any corner (each corner is solved in every
   * such state). `corners`: the faults applied at each corner of the box; `blown`: fuses blown before.
   */
  bands(corners: readonly (readonly AppliedFault[])[], blown: number): StateBand[] {
    const states = new Map<string, StateBand>();
    const asked = corners.map((faults) => this.ask(faults, blown));
    for (const { outcomes } of asked) {
      for (const { pulledIn, blown: after } of outcomes) {
        const key = `${pulledIn}/${after}`;
        if (states.has(key)) continue;
        let low = Infinity;
        let high = -Infinity;
        corners.forEach((faults, i) => {
          const band = this.forced(asked[i]!, faults, pulledIn, after);
          low = Math.min(low, band.low);
          high = Math.max(high, band.high);
        });
        const shown = this.observation.quantity.magnitude ? magnitude(low, high) : { low, high };
        states.set(key, { pulledIn, blown: after, ...shown });
      }
    }
    const all = [...states.values()];
    if (!asked.some(({ outcomes }) => outcomes.some((outcome) => outcome.chatters))) return all;
    // A chattering relay shows the meter anything between its states.
    const low = Math.min(...all.map((band) => band.low));
    const high = Math.max(...all.map((band) => band.high));
    return all.map((band) => ({ ...band, low, high }));
  }

  private ask(faults: readonly AppliedFault[], blown: number): Asked {
    const key = `${faultKey(faults)}|${blown}`;
    const known = this.memo.get(key);
    if (known !== undefined) return known;
    const variant = this.variant(faults, blown);
    const solver = this.bench.solver(this.observation.added);
    const outcomes = [...solver.solve(variant)];
    if (this.bench.network.coils.length > 0) {
      // A weak or strong battery may leave a relay in another state; both edges are possible.
      for (const edge of [-1, 1]) {
        const corner = new Int8Array(this.bench.network.elements.length + this.observation.added.length);
        corner[this.sourceIndex] = edge;
        outcomes.push(...solver.solve({ ...variant, corner }));
      }
    }
    const asked: Asked = { outcomes, bands: new Map() };
    this.memo.set(key, asked);
    return asked;
  }

  private variant(faults: readonly AppliedFault[], blown: number): Variant {
    const { pinned, source, present } = this.observation;
    const own = faults.some((fault) => fault.kind !== 'shunt' && fault.element === this.sourceIndex);
    // Where the posts were read beside this reading, they are what they are, whatever ails the battery behind them.
    const kept =
      pinned && own
        ? faults.filter((fault) => fault.kind === 'shunt' || fault.element !== this.sourceIndex)
        : faults;
    const replaced =
      !pinned && faults.some((fault) => fault.kind === 'law' && fault.element === this.sourceIndex);
    // A weak battery's posts say little of its emf: the narrowed band is for healthy ones only.
    const law = !pinned && own ? this.bench.network.elements[this.sourceIndex]!.law : source;
    return {
      present,
      faults: replaced ? kept : [{ kind: 'law', element: this.sourceIndex, law }, ...kept],
      blown,
    };
  }

  /** Tolerance band with relays and fuses held in one state. */
  private forced(
    asked: Asked,
    faults: readonly AppliedFault[],
    pulledIn: number,
    blown: number,
  ): { low: number; high: number } {
    const key = `${pulledIn}/${blown}`;
    const known = asked.bands.get(key);
    if (known !== undefined) return known;
    const band = this.toleranceBand(faults, pulledIn, blown);
    asked.bands.set(key, band);
    return band;
  }

  private toleranceBand(
    faults: readonly AppliedFault[],
    pulledIn: number,
    blown: number,
  ): { low: number; high: number } {
    const { added, unpowered, quantity } = this.observation;
    const solver = this.bench.solver(added);
    const held: Variant = { ...this.variant(faults, blown), forcedRelays: pulledIn };
    const nominal = solver.solve(held)[0]!;
    if (unpowered !== undefined && this.isLive(held, unpowered)) return { low: -Infinity, high: Infinity };
    if (quantity.minus !== undefined) return this.contrastBand(held, nominal, faults);
    const { a, b } = quantity;
    const { signs, ohms } = solver.adjoint(nominal, held, a, b);
    const up = solver.solve({ ...held, corner: signs, start: nominal })[0]!;
    const down = solver.solve({ ...held, corner: signs.map((sign: number) => -sign), start: nominal })[0]!;
    const values = [nominal, up, down].map((outcome) => outcome.volts[a]! - outcome.volts[b]!);
    let low = Math.min(...values);
    let high = Math.max(...values);
    const margin = CORNER_MARGIN * (high - low);
    low -= margin;
    high += margin;
    if (unpowered === undefined && quantity.load === undefined) {
      const battery = nominal.volts[this.bench.network.points.get('bat+')!]!;
      const share = ohms / (ohms + DAMP_OHMS);
      const [va, vb] = [nominal.volts[a]!, nominal.volts[b]!];
      low += share * (Math.min(-vb, va - battery, low) - low);
      high += share * (Math.max(battery - vb, va, high) - high);
    }
    const scale = ratedVolts(this.observation.quantity, faults);
    return { low: low / scale, high: high / scale };
  }

  /** Difference of two loads: what both share moves both alike, so only elements that move them apart go to their edges. */
  private contrastBand(
    held: Variant,
    nominal: Outcome,
    faults: readonly AppliedFault[],
  ): { low: number; high: number } {
    const { added, quantity } = this.observation;
    const minus = quantity.minus!;
    const solver = this.bench.solver(added);
    const first = solver.adjoint(nominal, held, quantity.a, quantity.b).signs;
    const second = solver.adjoint(nominal, held, minus.a, minus.b).signs;
    const apart = first.map((sign: number, i: number) => Math.sign(sign - second[i]!));
    const share = ({ volts }: Outcome, of: Quantity) =>
      Math.abs(volts[of.a]! - volts[of.b]!) / ratedVolts(of, faults);
    const corners = [apart, apart.map((sign: number) => -sign)].map(
      (corner) => solver.solve({ ...held, corner, start: nominal })[0]!,
    );
    const values = [nominal, ...corners].map((outcome) => share(outcome, quantity) - share(outcome, minus));
    const low = Math.min(...values);
    const high = Math.max(...values);
    return { low: low - CORNER_MARGIN * (high - low), high: high + CORNER_MARGIN * (high - low) };
  }

  private isLive(held: Variant, unpowered: Observation['added']): boolean {
    const { a, b } = this.observation.quantity;
    const { volts } = this.bench.solver(unpowered).solve(held)[0]!;
    return Math.abs(volts[a]! - volts[b]!) > LIVE_VOLTS;
  }
}

/** What was solved earlier on this workbench for the very same question. */
function remembered(bench: Workbench, question: Question): Map<string, Asked> {
  let questions = memory.get(bench);
  if (questions === undefined) memory.set(bench, (questions = new Map()));
  const { added, unpowered, present, source, pinned, quantity } = question;
  const key = JSON.stringify([added, unpowered, present.join(''), source, pinned, quantity]);
  const known = questions.get(key);
  if (known !== undefined) return known;
  if (questions.size >= MOST_REMEMBERED) questions.delete(questions.keys().next().value!);
  const fresh = new Map<string, Asked>();
  questions.set(key, fresh);
  return fresh;
}

const memory = new WeakMap<Workbench, Map<string, Map<string, Asked>>>();

/** Rated volts of the load as it is fitted: a wrong lamp is lit by its own standard. */
function ratedVolts(quantity: Observation['quantity'], faults: readonly AppliedFault[]): number {
  for (const fault of faults) {
    if (fault.kind === 'law' && fault.element === quantity.load && fault.law.kind === 'curve')
      return fault.law.volts;
  }
  return quantity.scale;
}

function magnitude(low: number, high: number): { low: number; high: number } {
  if (low >= 0) return { low, high };
  if (high <= 0) return { low: -high, high: -low };
  return { low: 0, high: Math.max(-low, high) };
}

function faultKey(faults: readonly AppliedFault[]): string {
  let key = '';
  for (const fault of faults) {
    switch (fault.kind) {
      case 'series':
        key += `s${fault.element}:${fault.ohms};`;
        break;
      case 'shunt':
        key += `g${fault.node}:${fault.ohms};`;
        break;
      case 'stuck':
        key += `c${fault.element}:${fault.closed};`;
        break;
      case 'law':
        key += `l${fault.element}:${JSON.stringify(fault.law)};`;
        break;
    }
  }
  return key;
}
