/**
 * A variant of a network as an ngspice netlist: the same elements and laws, written again from the contract in
 * src/network/network.ts and not from the solver, so that the two can be compared.
 */
import type { Law, Network } from '../../src/network/network.js';
import type { AddedElement, Variant } from '../../src/network/solver-types.js';

/** One fully decided network: the relays and fuses as the outcome under test has them. */
export interface SpiceCase {
  readonly network: Network;
  readonly added: readonly AddedElement[];
  readonly variant: Variant;
  readonly pulledIn: number;
  readonly blown: number;
  /** Contacts that are open although their condition holds: those of a duty, for their part of the time. */
  readonly open?: readonly number[];
  /** Nodes whose volts are wanted; all of them unless given. */
  readonly nodes?: readonly number[];
  /** Volts per node from which ngspice may start where it does not settle by itself. */
  readonly guess?: Float64Array;
}

/** Leak of every node to body metal, and of body to battery negative (see reduced-network.ts). */
export const LEAK_OHMS = 1e11;

const pick = (edge: number, low: number, nominal: number, high: number) =>
  edge > 0 ? high : edge < 0 ? low : nominal;

function bit(mask: number, i: number): boolean {
  return Math.floor(mask / 2 ** i) % 2 === 1;
}

/** Expression of the current of a curve or diode in terms of its volts `v`. */
function expression(law: Law, edge: number, v: string): string {
  if (law.kind === 'diode') {
    const forward = law.forwardVolts - edge * law.spread;
    const on = `((${v}) - ${forward})/${law.ohms}`;
    return `(${on}) > (${v})*1e-9 ? (${on}) : (${v})*1e-9`;
  }
  if (law.kind !== 'curve') throw new Error(`no expression for ${law.kind}`);
  const amps = law.amps * (1 + edge * law.spread);
  const knee = law.knee * law.volts;
  const cold = (pick(edge, law.coldHigh, law.cold, law.coldLow) * law.volts) / amps;
  const warm = knee / (amps * law.knee ** law.exponent);
  const hot = `sgn(${v})*${amps}*pow(max(abs(${v}),${knee / 2})/${law.volts}, ${law.exponent})`;
  return `abs(${v}) > ${knee} ? ${hot} : (${v})/(${cold} + ${(warm - cold) / knee}*abs(${v}))`;
}

/** Whether current can pass at all, apart from ohms in series. */
function connected(spice: SpiceCase, index: number, law: Law): boolean {
  const { network, variant, pulledIn, blown, open = [] } = spice;
  if (open.includes(index)) return false;
  for (const fault of variant.faults)
    if (fault.kind === 'stuck' && fault.element === index) return fault.closed;
  if (index < network.elements.length && variant.present[index] === 0) return false;
  const fuse = network.fuses.indexOf(index);
  if (fuse >= 0 && bit(blown, fuse)) return false;
  const own = network.elements[index]?.law ?? law;
  if (own.kind !== 'contact') return true;
  const conditions = own.closed.kind === 'all' ? own.closed.of : [own.closed];
  return conditions.every(
    (one) =>
      one.kind !== 'coil' || bit(pulledIn, network.coils.indexOf(one.coil)) !== (one.rest === 'closed'),
  );
}

/** Both nodes of the elements that crossings and wrong fitting have moved. */
function movedEnds({ network, variant }: SpiceCase): ReadonlyMap<number, readonly [number, number]> {
  const ends = new Map<number, readonly [number, number]>();
  const at = (element: number) =>
    ends.get(element) ?? ([network.elements[element]!.a, network.elements[element]!.b] as const);
  for (const fault of variant.faults) {
    if (fault.kind === 'rehung') ends.set(fault.element, [fault.a, fault.b]);
    if (fault.kind !== 'crossed') continue;
    const [first, second] = [at(fault.first), at(fault.second)];
    ends.set(fault.first, [first[0], second[1]]);
    ends.set(fault.second, [second[0], first[1]]);
  }
  return ends;
}

/**
 * The networks of which a DC meter shows the mean, with their part of the time. Contacts with a duty close together at the
 * start of a period and open one after the other; nearly always there is none, or one.
 */
export function phasesOf(spice: SpiceCase): { readonly spice: SpiceCase; readonly share: number }[] {
  const { network, variant } = spice;
  const opensAt = new Map<number, number>();
  network.elements.forEach(({ index, law }) => {
    if (law.kind !== 'contact' || law.duty === undefined || !connected(spice, index, law)) return;
    if (variant.faults.some((fault) => fault.kind === 'stuck' && fault.element === index)) return;
    const edge = variant.corner?.[index] ?? 0;
    opensAt.set(index, pick(edge, law.duty.low, law.duty.part, law.duty.high));
  });
  const moments = [...new Set([0, ...opensAt.values(), 1])].sort((a, b) => a - b);
  return moments.slice(1).map((until, i) => {
    const from = moments[i]!;
    const open = [...opensAt].filter(([, at]) => at <= from).map(([contact]) => contact);
    return { spice: { ...spice, open }, share: until - from };
  });
}

export interface SpiceParts {
  /** By name; the same name always joins the same two nodes of a network. */
  readonly resistors: Map<string, { readonly a: string; readonly b: string; readonly ohms: number }>;
  readonly sources: Map<string, { readonly plus: string; readonly minus: string; readonly volts: number }>;
  /** Whole lines, since ngspice cannot alter an expression. */
  readonly curves: string[];
}

/** Name of a node in the netlist. */
export function spiceNode(index: number): string {
  return index === 0 ? '0' : `n${index}`;
}

/** What one case consists of; open contacts are left out. */
export function spiceParts(spice: SpiceCase): SpiceParts {
  const { network, added, variant } = spice;
  const parts: SpiceParts = { resistors: new Map(), sources: new Map(), curves: [] };
  const resistor = (name: string, a: string, b: string, ohms: number) => {
    parts.resistors.set(`r${name}`, { a, b, ohms });
  };
  const ends = movedEnds(spice);
  [...network.elements, ...added].forEach((drawn, index) => {
    const [a, b] = ends.get(index) ?? [drawn.a, drawn.b];
    const own = drawn.law;
    let law = own;
    let series = 0;
    for (const fault of variant.faults) {
      if (!('element' in fault) || fault.element !== index) continue;
      if (fault.kind === 'series') series += fault.ohms;
      if (fault.kind === 'law') law = fault.law;
    }
    if (a === b || series === Infinity || !connected(spice, index, law)) return;
    const edge = variant.corner?.[index] ?? 0;
    // What is attached or has moved is named by where it stands, so that the same name always joins the same nodes.
    const place =
      index >= network.elements.length
        ? `m${a}x${b}x${index - network.elements.length}`
        : ends.has(index)
          ? `e${index}x${a}x${b}`
          : `e${index}`;
    const inner = `s${place}`;
    let from = spiceNode(a);
    const to = spiceNode(b);
    if (law.kind === 'ohms' || law.kind === 'contact' || law.kind === 'fuse') {
      resistor(place, from, to, pick(edge, law.high, law.ohms, law.low) + series);
      return;
    }
    if (law.kind === 'source') {
      const volts = pick(edge, law.lowVolts, law.volts, law.highVolts);
      parts.sources.set(`v${place}`, { plus: inner, minus: from, volts });
      resistor(`i${place}`, inner, to, law.ohms + series);
      return;
    }
    if (series > 0) {
      resistor(`i${place}`, from, inner, series);
      from = inner;
    }
    const volts = to === '0' ? `v(${from})` : from === '0' ? `-v(${to})` : `v(${from},${to})`;
    parts.curves.push(`b${place} ${from} ${to} I = ${expression(law, edge, volts)}`);
  });
  variant.faults.forEach((fault, i) => {
    if (fault.kind !== 'bridge' || fault.a === fault.b || fault.ohms === Infinity) return;
    resistor(`b${fault.a}x${fault.b}x${i}`, spiceNode(fault.a), spiceNode(fault.b), fault.ohms);
  });
  for (const fault of variant.faults) {
    if (fault.kind !== 'shunt' || fault.node === 1) continue;
    const before = parts.resistors.get(`rf${fault.node}`)?.ohms ?? Infinity;
    resistor(`f${fault.node}`, spiceNode(fault.node), spiceNode(1), 1 / (1 / before + 1 / fault.ohms));
  }
  network.nodeNames.forEach((_, index) => {
    if (index !== 1) resistor(`l${index}`, spiceNode(index), spiceNode(1), LEAK_OHMS);
  });
  return parts;
}
