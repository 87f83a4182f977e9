/** A network in the making: nodes by the names of their points, elements by their sites. */
import type { Part, Wire } from '../circuit/circuit.js';
import type { CoilCond, Cond, Duty, Element, Law, Load, Scan, SingleCond } from './network.js';
import { BATTERY_NEGATIVE, BODY } from './network.js';
import { CABLE_MM2, CONTACT_OHMS, HEAVY_CONTACT_OHMS, HEAVY_JOINT, JOINT, LEAD } from './part-laws.js';

export class NetworkBuilder {
  readonly nodeNames: string[] = ['bat-', 'body'];
  readonly elements: Element[] = [];
  readonly points = new Map<string, number>([
    ['bat-', BATTERY_NEGATIVE],
    ['body', BODY],
  ]);
  readonly loads = new Map<string, Load>();
  readonly sites = new Map<string, number>();
  readonly fuses: number[] = [];
  readonly coils: number[] = [];
  readonly scans = new Map<string, Scan>();
  /** Wire points that a battery cable ends on. */
  private readonly heavy: ReadonlySet<string>;

  constructor(wires: readonly Wire[]) {
    this.heavy = new Set(wires.filter(({ mm2 }) => mm2 >= CABLE_MM2).flatMap(({ from, to }) => [from, to]));
  }

  joint(...points: string[]): Law {
    return points.some((point) => this.heavy.has(point)) ? HEAVY_JOINT : JOINT;
  }

  contact(part: Part, ...terminals: string[]): typeof CONTACT_OHMS {
    return terminals.some((terminal) => this.heavy.has(`${part.id}.${terminal}`))
      ? HEAVY_CONTACT_OHMS
      : CONTACT_OHMS;
  }

  node(name: string): number {
    this.nodeNames.push(name);
    return this.nodeNames.length - 1;
  }

  /** The node a probe reaches under this name, made on first use. */
  point(name: string): number {
    const known = this.points.get(name);
    if (known !== undefined) return known;
    const made = this.node(name);
    this.points.set(name, made);
    return made;
  }

  /** @returns index of the element */
  add(site: string, part: string, owner: Element['owner'], a: number, b: number, law: Law): number {
    const index = this.elements.length;
    this.elements.push({ index, site, part, owner, a, b, law });
    this.sites.set(site, index);
    if (law.kind === 'fuse') this.fuses.push(index);
    return index;
  }

  /** Index that the next element gets. */
  get next(): number {
    return this.elements.length;
  }

  /** Node of a terminal on the item itself. */
  inside(part: Part, terminal: string): number {
    return this.point(`${part.id}.${terminal}i`);
  }

  /** Condition that an element's volts decide; the element becomes a coil of the network. */
  coil(element: number, band: Omit<CoilCond, 'kind' | 'coil'>): CoilCond {
    if (!this.coils.includes(element)) this.coils.push(element);
    return { kind: 'coil', coil: element, ...band };
  }

  item(part: Part, site: string, a: number, b: number, law: Law): number {
    return this.add(`${part.id}:${site}`, part.id, 'item', a, b, law);
  }

  /** A load with its inner joint, so that "open inside" leaves no voltage across what lights or turns. */
  load(part: Part, site: string, from: string, to: string, law: Law): number {
    const inner = this.node(`${part.id}:${site} inside`);
    this.item(part, `${site} lead`, this.point(`${part.id}.${from}i`), inner, LEAD);
    return this.item(part, site, inner, this.point(`${part.id}.${to}i`), law);
  }

  watch(part: Part, id: string, kind: Load['kind'], element: number, ratedVolts: number): void {
    this.loads.set(id, { id, part: part.id, kind, element, ratedVolts });
  }
}

type Band = Pick<Extract<Law, { kind: 'contact' }>, 'ohms' | 'low' | 'high'>;

/** A contact's law; several conditions must hold together. */
export function contactLaw(ohms: Band, closed: readonly SingleCond[], duty?: Duty): Law {
  const cond: Cond = closed.length === 1 ? closed[0]! : { kind: 'all', of: closed };
  return { kind: 'contact', ...ohms, closed: cond, ...(duty === undefined ? {} : { duty }) };
}
