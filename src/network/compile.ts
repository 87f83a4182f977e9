/**
 * From a checked circuit to its electrical network. Every value that a circuit file does not give comes from here,
 * with the band inside which a good part may lie: predictions use the band, so a value may be rough but not narrow.
 */
import type { Circuit, Part, Wire } from '../circuit/circuit.js';
import { terminalsOf } from '../circuit/circuit.js';
import type { Cond, Element, Law, Load, Network } from './network.js';
import { BATTERY_NEGATIVE, BODY } from './network.js';

/** Resistivity of annealed copper at 20 °C, ohm mm²/m (IEC 60028:1925). */
export const COPPER_OHM_MM2_PER_M = 0.017241;

/** A good contact: a few milliohms (common practice, no source). */
const JOINT: Law = { kind: 'ohms', ohms: 0.002, low: 0.0002, high: 0.008 };
/**
 * Battery cables end in bolted lugs: below 0.1 V at the 200 A of a starter (repair manual quoting SAE), 0.5 mΩ. Their contacts
 * may lose 0.3 V (same): 1.5 mΩ. The usual values are common practice, no source.
 */
const HEAVY_JOINT: Law = { kind: 'ohms', ohms: 0.0001, low: 0.00001, high: 0.0005 };
const HEAVY_CONTACT_OHMS = { ohms: 0.0004, low: 0.0001, high: 0.0015 };
/** Conductors from this size on are battery cables with bolted lugs, mm² (common practice, no source). */
const CABLE_MM2 = 25;
/** The joint inside a load between its terminal and its filament or winding; a fault site, no measurable ohms. */
const LEAD: Law = { kind: 'ohms', ohms: 0.0005, low: 0.0004, high: 0.0006 };
/** Contact drop of relays at 10 A: typically 15 mV, at most 200 mV (relay data sheets): 1.5 to 20 mΩ; switches wear more. */
const CONTACT_OHMS = { ohms: 0.015, low: 0.0015, high: 0.05 };
/**
 * EMF band of a serviceable lead-acid battery per volt of nominal, engine off: 11.0 to 13.2 V for 12 V. Rested it is 11.9 to
 * 12.65 V from empty to full; ageing, cold and a surface charge widen it. Below is "flat", a fault mode.
 */
export const RESTED_BAND = { low: 11.0 / 12, high: 13.2 / 12 };
/** Charging: 13.2 to 14.4 V usual, up to 14.7 V (trade tables), widened for regulators at their limits. */
export const CHARGING = { volts: 14.0 / 12, low: 12.9 / 12, high: 15.0 / 12 };

/** Ohms of a copper wire: resistivity × length / cross-section. */
export function wireOhms(mm2: number, metres: number): number {
  return (COPPER_OHM_MM2_PER_M * metres) / mm2;
}

/**
 * The law of a filament. I ∝ V^0.55 near rated volts (lamp rerating, standard EE handbook); below 5 % of rated volts a band of
 * cold resistance 1/16 to 1/9 of hot. Spread ±12 %: UN R37 lets signal lamps draw up to 26.5 W at 13.5 V for 21 W, less with age.
 */
export function filamentLaw(watts: number, volts: number): Law {
  return {
    kind: 'curve',
    volts,
    amps: watts / volts,
    exponent: 0.55,
    knee: 0.05,
    cold: 1 / 12,
    coldLow: 1 / 16,
    coldHigh: 1 / 9,
    spread: 0.12,
  };
}

/** A running motor draws little less at lower volts; stalled it has about a fifth of its running resistance (common practice, no source). */
function motorLaw(amps: number, volts: number): Law {
  return {
    kind: 'curve',
    volts,
    amps,
    exponent: 0.3,
    knee: 0.1,
    cold: 0.15,
    coldLow: 0.08,
    coldHigh: 0.2,
    spread: 0.35,
  };
}

function band(ohms: number, low: number, high: number): Law {
  return { kind: 'ohms', ohms, low: ohms * low, high: ohms * high };
}

class Builder {
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
  private batteries = 0;
  /** Wire points that a battery cable ends on. */
  private readonly heavy: ReadonlySet<string>;

  constructor(wires: readonly Wire[]) {
    this.heavy = new Set(wires.filter(({ mm2 }) => mm2 >= CABLE_MM2).flatMap(({ from, to }) => [from, to]));
  }

  private joint(...points: string[]): Law {
    return points.some((point) => this.heavy.has(point)) ? HEAVY_JOINT : JOINT;
  }

  private contact(part: Part, ...terminals: string[]): typeof CONTACT_OHMS {
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

  add(site: string, part: string, owner: Element['owner'], a: number, b: number, law: Law): number {
    const index = this.elements.length;
    this.elements.push({ index, site, part, owner, a, b, law });
    this.sites.set(site, index);
    if (law.kind === 'fuse') this.fuses.push(index);
    return index;
  }

  private item(part: Part, site: string, a: number, b: number, law: Law): number {
    return this.add(`${part.id}:${site}`, part.id, 'item', a, b, law);
  }

  /** A load with its inner joint, so that "open inside" leaves no voltage across what lights or turns. */
  private load(part: Part, site: string, from: string, to: string, law: Law): number {
    const inner = this.node(`${part.id}:${site} inside`);
    this.item(part, `${site} lead`, this.point(`${part.id}.${from}i`), inner, LEAD);
    return this.item(part, site, inner, this.point(`${part.id}.${to}i`), law);
  }

  private watch(part: Part, id: string, kind: Load['kind'], element: number, ratedVolts: number): void {
    this.loads.set(id, { id, part: part.id, kind, element, ratedVolts });
  }

  part(part: Part, nominalVolts: number): void {
    if (part.type === 'battery') {
      const first = this.batteries++ === 0;
      const minus = first ? BATTERY_NEGATIVE : this.point(`${part.id}.31i`);
      this.points.set(`${part.id}.31i`, minus);
      const plus = this.point(first ? 'bat+' : `${part.id}.30i`);
      this.points.set(`${part.id}.30i`, plus);
      const rested = part.volts;
      this.item(part, 'emf', minus, plus, {
        kind: 'source',
        volts: rested,
        lowVolts: nominalVolts * RESTED_BAND.low,
        highVolts: nominalVolts * RESTED_BAND.high,
        ohms: part.ohms,
      });
    }
    for (const terminal of terminalsOf(part)) {
      const name = `${part.id}.${terminal}`;
      this.add(name, part.id, 'position', this.point(name), this.point(`${name}i`), this.joint(name));
    }
    const inside = (terminal: string) => this.point(`${part.id}.${terminal}i`);
    switch (part.type) {
      case 'battery':
        return;
      case 'fuse': {
        // Cold resistance of blade fuses is 0.06 to 0.09 ohm divided by the rating (typical maker's sheet, from memory).
        const ohms = 0.075 / part.amps;
        this.item(part, 'link', inside('1'), inside('2'), {
          kind: 'fuse',
          ohms,
          low: ohms * 0.7,
          high: ohms * 1.5,
          amps: part.amps,
        });
        return;
      }
      case 'switch':
        for (const contact of part.contacts) {
          const [from, to] = contact.between;
          const closed: Cond = { kind: 'control', control: part.control, positions: new Set(contact.closed) };
          this.item(part, `${from}-${to}`, inside(from), inside(to), {
            kind: 'contact',
            ...this.contact(part, from, to),
            closed,
          });
        }
        return;
      case 'relay': {
        const coil = this.load(part, 'coil', '86', '85', band(part.coilOhms, 0.8, 1.25));
        this.coils.push(coil);
        this.watch(part, part.id, 'relay', coil, nominalVolts);
        const drive = {
          kind: 'coil',
          coil,
          pullInVolts: part.pullInVolts,
          dropOutVolts: part.dropOutVolts,
        } as const;
        this.item(part, '30-87', inside('30'), inside('87'), {
          kind: 'contact',
          ...this.contact(part, '30', '87'),
          closed: { ...drive, rest: 'open' },
        });
        if (part.changeOver) {
          this.item(part, '30-87a', inside('30'), inside('87a'), {
            kind: 'contact',
            ...this.contact(part, '30', '87a'),
            closed: { ...drive, rest: 'closed' },
          });
        }
        return;
      }
      case 'lamp':
        for (const filament of part.filaments) {
          const law = filamentLaw(filament.watts, filament.volts);
          const element = this.load(part, filament.terminal, filament.terminal, '31', law);
          const id = part.filaments.length === 1 ? part.id : `${part.id}.${filament.terminal}`;
          this.watch(part, id, 'lamp', element, filament.volts);
        }
        return;
      case 'horn': {
        const element = this.load(part, 'coil', '1', '31', band(part.volts / part.amps, 0.7, 1.4));
        this.watch(part, part.id, 'horn', element, part.volts);
        return;
      }
      case 'motor': {
        const element = this.load(part, 'winding', '1', '2', motorLaw(part.amps, part.volts));
        this.watch(part, part.id, 'motor', element, part.volts);
        return;
      }
      case 'resistor':
        this.item(
          part,
          'body',
          inside('1'),
          inside('2'),
          band(part.ohms, 1 - part.tolerance, 1 + part.tolerance),
        );
        return;
      case 'diode': {
        this.load(part, 'junction', 'A', 'K', {
          kind: 'diode',
          forwardVolts: part.forwardVolts,
          ohms: 0.05,
          spread: 0.2,
        });
        return;
      }
      case 'ground':
        this.add(part.id, part.id, 'position', this.point(part.id), BODY, this.joint(part.id));
        return;
      case 'splice':
        this.point(part.id);
        return;
      case 'connector':
        for (const pin of part.pins) {
          const name = `${part.id}.${pin}`;
          const law = this.joint(`${name}h`, `${name}c`);
          this.add(name, part.id, 'position', this.point(`${name}h`), this.point(`${name}c`), law);
        }
        return;
    }
  }

  /** Node where a wire ends. Each wire on a splice or ground stud has a crimp or eyelet of its own. */
  private end(wire: Wire, at: string, parts: Circuit['parts']): number {
    const part = parts.get(at);
    if (part === undefined) return this.point(at);
    const name = `${at}/${wire.id}`;
    const node = this.node(name);
    const law = wire.mm2 >= CABLE_MM2 ? HEAVY_JOINT : JOINT;
    this.add(name, part.id, 'position', node, this.point(at), law);
    return node;
  }

  wire(wire: Wire, parts: Circuit['parts']): void {
    const from = this.end(wire, wire.from, parts);
    const to = this.end(wire, wire.to, parts);
    // Class 5 conductors may have 13 % over rho·L/A (IEC 60228), and copper gains 0.39 % per kelvin: −20 °C to +60 °C.
    this.add(wire.id, wire.id, 'wire', from, to, band(wireOhms(wire.mm2, wire.metres), 0.82, 1.35));
  }
}

/** Builds the network. The circuit has passed its checks: every wire end exists and there is a battery. */
export function compile(circuit: Circuit): Network {
  const builder = new Builder(circuit.wires);
  for (const part of circuit.parts.values()) builder.part(part, circuit.nominalVolts);
  for (const wire of circuit.wires) builder.wire(wire, circuit.parts);
  return builder;
}
