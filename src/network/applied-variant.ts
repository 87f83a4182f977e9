/**
 * What every element is in one variant of the network: its law, the ohms in series with it, whether it is connected, the
 * edge of its tolerance. Arrays cover the network's elements, then the added ones.
 */
import { coilConds } from './cond.js';
import {
  diodeCurrent,
  diodeSlope,
  isLinear,
  lawChord,
  lawCurrent,
  lawEmf,
  lawOhms,
  lawSlope,
  voltsLeft,
} from './laws.js';
import type { Law, Network } from './network.js';
import type { AddedElement, Variant } from './solver-types.js';

/** Contacts a coil moves. */
interface DrivenContact {
  readonly element: number;
  /** Bit of the coil in a pulled-in mask. */
  readonly coil: number;
  readonly closedAtRest: boolean;
}

const EDGES = [-1, 0, 1] as const;
const NONE: readonly number[] = [];

/** Siemens of a law without curve, 0 for others. */
function conductance(law: Law, edge: number, series: number): number {
  if (!isLinear(law)) return 0;
  const ohms =
    law.kind === 'source' ? 1 / lawSlope(law, 0) : lawOhms(law as Parameters<typeof lawOhms>[0], edge);
  return 1 / (ohms + series);
}

export class AppliedVariant {
  readonly count: number;
  readonly a: Int32Array;
  readonly b: Int32Array;
  /** Law in force, a fault's own law included. */
  readonly laws: Law[];
  /** Ohms in series; Infinity = open. */
  readonly series: Float64Array;
  /** 1 = connected and closed. */
  readonly on: Uint8Array;
  readonly edges: Int8Array;
  /** Conductance of the elements without a curve, series ohms and open contacts included; 0 for the others. */
  readonly siemens: Float64Array;
  /** Elements whose law is a source. */
  readonly sources: readonly number[];
  /** Faults to body metal: node and ohms in turn. */
  readonly shunts: number[] = [];
  private readonly own: readonly Law[];
  private readonly ownSiemens: readonly Float64Array[];
  private readonly driven: readonly DrivenContact[];
  private readonly changed: number[] = [];
  /** Contacts with a duty. */
  private readonly pulsed: readonly number[];
  private readonly stuck: number[] = [];

  constructor(
    private readonly network: Network,
    added: readonly AddedElement[],
  ) {
    const all: readonly AddedElement[] = [...network.elements, ...added];
    this.count = all.length;
    this.a = Int32Array.from(all, (element) => element.a);
    this.b = Int32Array.from(all, (element) => element.b);
    this.own = all.map((element) => element.law);
    this.laws = [...this.own];
    this.series = new Float64Array(this.count);
    this.on = new Uint8Array(this.count).fill(1);
    this.edges = new Int8Array(this.count);
    this.siemens = new Float64Array(this.count);
    this.ownSiemens = EDGES.map((edge) => Float64Array.from(this.own, (law) => conductance(law, edge, 0)));
    this.sources = [...this.own.keys()].filter((element) => this.own[element]!.kind === 'source');
    this.pulsed = this.own.flatMap((law, i) => (law.kind === 'contact' && law.duty !== undefined ? [i] : []));
    this.driven = network.elements.flatMap(({ index, law }) =>
      law.kind === 'contact'
        ? coilConds(law.closed).map(({ coil, rest }) => ({
            element: index,
            coil: network.coils.indexOf(coil),
            closedAtRest: rest === 'closed',
          }))
        : [],
    );
  }

  /** Contacts that go on and off by themselves as things stand, the one that is closed longest first. */
  pulsing(): readonly number[] {
    if (this.pulsed.length === 0) return NONE;
    return this.pulsed
      .filter((i) => this.on[i] === 1 && !this.stuck.includes(i) && this.duty(i) < 1)
      .sort((a, b) => this.duty(b) - this.duty(a));
  }

  /** Part of the time for which a contact is closed, at the edge of tolerance applied. */
  duty(element: number): number {
    const law = this.laws[element]!;
    if (law.kind !== 'contact' || law.duty === undefined) return 1;
    const edge = this.edges[element]!;
    return edge === 0 ? law.duty.part : edge > 0 ? law.duty.high : law.duty.low;
  }

  /** Opens an element until the next `apply`. */
  open(element: number): void {
    this.on[element] = 0;
    this.siemens[element] = 0;
  }

  /** Sets every array for a variant with these relays pulled in and these fuses open. */
  apply(variant: Variant, pulledIn: number, blown: number): void {
    const { on, edges, series, siemens, laws, own, changed, network } = this;
    on.set(variant.present);
    for (const { element, coil, closedAtRest } of this.driven) {
      if (((pulledIn >>> coil) & 1) === (closedAtRest ? 1 : 0)) on[element] = 0;
    }
    for (let i = 0; blown >>> i !== 0; i++) if ((blown >>> i) & 1) on[network.fuses[i]!] = 0;
    for (const element of changed) {
      laws[element] = own[element]!;
      series[element] = 0;
    }
    changed.length = 0;
    this.stuck.length = 0;
    this.shunts.length = 0;
    edges.fill(0);
    if (variant.corner) edges.set(variant.corner);
    for (const fault of variant.faults) this.fault(fault);
    const [low, nominal, high] = this.ownSiemens as [Float64Array, Float64Array, Float64Array];
    for (let i = 0; i < this.count; i++) {
      const edge = edges[i]!;
      siemens[i] = on[i] === 0 ? 0 : edge === 0 ? nominal[i]! : edge > 0 ? high[i]! : low[i]!;
    }
    for (const i of changed) siemens[i] = on[i] === 0 ? 0 : conductance(laws[i]!, edges[i]!, series[i]!);
  }

  private fault(fault: Variant['faults'][number]): void {
    switch (fault.kind) {
      case 'series':
        this.series[fault.element] = this.series[fault.element]! + fault.ohms;
        this.changed.push(fault.element);
        return;
      case 'law':
        this.laws[fault.element] = fault.law;
        this.changed.push(fault.element);
        return;
      case 'stuck':
        this.on[fault.element] = fault.closed ? 1 : 0;
        this.stuck.push(fault.element);
        return;
      case 'shunt':
        this.shunts.push(fault.node, fault.ohms);
        return;
      case 'bridge':
      case 'crossed':
      case 'rehung':
        throw new Error(`Bug in knowngood: a ${fault.kind} fault reached a network that was not rewired.`);
    }
  }

  /** Elements to which a fault gave a curve, or a source, that they do not have themselves. */
  newlyCurved(): number[] {
    return this.changed
      .filter((i) => isLinear(this.own[i]!) && this.laws[i]!.kind !== this.own[i]!.kind)
      .filter(
        (i) => !isLinear(this.laws[i]!) || this.laws[i]!.kind === 'source' || this.own[i]!.kind === 'source',
      )
      .sort((a, b) => a - b);
  }

  /** Volts that remain for the element itself, without the ohms in series with it. */
  ownVolts(element: number, volts: number): number {
    if (this.on[element] === 0) return 0;
    const law = this.laws[element]!;
    const series = this.series[element]!;
    if (series === 0) return volts;
    if (series === Infinity) return 0;
    return isLinear(law)
      ? volts - series * this.amps(element, volts)
      : voltsLeft(law, volts, series, this.edges[element]!);
  }

  /** Amperes from a to b through the element at V(a) − V(b), at another edge of its tolerance if one is given. */
  amps(element: number, volts: number, edge: number = this.edges[element]!): number {
    const law = this.laws[element]!;
    const series = this.series[element]!;
    if (this.on[element] === 0 || series === Infinity) return 0;
    if (series === 0) return lawCurrent(law, volts, edge);
    if (law.kind === 'source') return (volts + lawEmf(law, edge)) * conductance(law, edge, series);
    if (law.kind === 'diode') return diodeCurrent(law, volts, edge, series);
    if (isLinear(law)) return volts * conductance(law, edge, series);
    return lawCurrent(law, voltsLeft(law, volts, series, edge), edge);
  }

  /**
   * dI/dV of `amps` (chord: I/V instead, see `lawChord`).
   * @param amps the current at these volts
   */
  slope(element: number, volts: number, amps: number, chord = false): number {
    const series = this.series[element]!;
    if (this.on[element] === 0 || series === Infinity) return 0;
    const law = this.laws[element]!;
    if (law.kind === 'diode') return diodeSlope(law, volts, amps, series);
    const edge = this.edges[element]!;
    const own = volts - series * amps;
    const siemens = chord ? lawChord(law, own, edge, amps) : lawSlope(law, own, edge, amps);
    return siemens / (1 + series * siemens);
  }
}
