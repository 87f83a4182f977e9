/** The elements of each kind of part. The larger kinds have files of their own. */
import type { Part, Relay } from '../circuit/circuit.js';
import { terminalsOf } from '../circuit/circuit.js';
import { compileAlternator } from './compile-alternator.js';
import { compileFlasher } from './compile-flasher.js';
import { compileModule } from './compile-module.js';
import { contactLaw, type NetworkBuilder } from './network-builder.js';
import type { Law } from './network.js';
import { BATTERY_NEGATIVE, BODY } from './network.js';
import {
  band,
  COUPLING_OHMS,
  filamentLaw,
  LEAD,
  ledLaw,
  motorLaw,
  ohmsBand,
  RESTED_BAND,
  unknownLoadLaw,
} from './part-laws.js';

export function compilePart(builder: NetworkBuilder, part: Part, nominalVolts: number): void {
  if (part.type === 'battery') {
    const first = !builder.points.has('bat+');
    const minus = first ? BATTERY_NEGATIVE : builder.inside(part, '31');
    builder.points.set(`${part.id}.31i`, minus);
    const plus = builder.point(first ? 'bat+' : `${part.id}.30i`);
    builder.points.set(`${part.id}.30i`, plus);
    builder.item(part, 'emf', minus, plus, {
      kind: 'source',
      volts: part.volts,
      lowVolts: nominalVolts * RESTED_BAND.low,
      highVolts: nominalVolts * RESTED_BAND.high,
      ohms: part.ohms,
    });
  }
  for (const terminal of terminalsOf(part)) {
    const name = `${part.id}.${terminal}`;
    builder.add(
      name,
      part.id,
      'position',
      builder.point(name),
      builder.point(`${name}i`),
      builder.joint(name),
    );
  }
  const inside = (terminal: string) => builder.inside(part, terminal);
  /** A load that a person watches, under the part's own id. */
  const load = (kind: Parameters<NetworkBuilder['watch']>[2], site: string, law: Law, volts: number) => {
    const [from, to] = terminalsOf(part) as [string, string];
    builder.watch(part, part.id, kind, builder.load(part, site, from, to, law), volts);
  };
  switch (part.type) {
    case 'battery':
      return;
    case 'alternator':
      return compileAlternator(builder, part, nominalVolts);
    case 'flasher':
      return compileFlasher(builder, part, nominalVolts);
    case 'module':
      return compileModule(builder, part, nominalVolts);
    case 'fuse':
    case 'fusible link':
      // Cold resistance of blade fuses is 0.06 to 0.09 ohm divided by the rating (typical maker's sheet, from memory); links alike.
      // The smallest ones have more.
      builder.item(part, 'link', inside('1'), inside('2'), {
        kind: 'fuse',
        ...ohmsBand(0.075 / part.amps, 0.7, part.amps < 2 ? 1.8 : 1.5),
        amps: part.amps,
      });
      return;
    case 'breaker':
      // A bimetal loses 0.1 to 0.3 V at its rating (common practice, no source).
      builder.item(part, 'bimetal', inside('1'), inside('2'), {
        kind: 'fuse',
        ...ohmsBand(0.15 / part.amps, 0.5, 2),
        amps: part.amps,
        resets: part.reset,
      });
      return;
    case 'switch':
      for (const contact of part.contacts) {
        const [from, to] = contact.between;
        const closed = {
          kind: 'control',
          control: part.control,
          positions: new Set(contact.closed),
        } as const;
        builder.item(
          part,
          `${from}-${to}`,
          inside(from),
          inside(to),
          contactLaw(builder.contact(part, from, to), [closed]),
        );
      }
      return;
    case 'relay':
      return compileRelay(builder, part, nominalVolts);
    case 'lamp':
      for (const { terminal, watts, volts } of part.filaments) {
        const element = builder.load(part, terminal, terminal, '31', filamentLaw(watts, volts));
        const id = part.filaments.length === 1 ? part.id : `${part.id}.${terminal}`;
        builder.watch(part, id, 'lamp', element, volts);
      }
      return;
    case 'LED lamp':
      return load('LED', 'LED', ledLaw(part.watts, part.volts), part.volts);
    case 'horn':
      return load('horn', 'coil', band(part.volts / part.amps, 0.7, 1.4), part.volts);
    case 'buzzer':
      // Electronics or a coil that breaks its own current: the mean says little of the ohms (common practice, no source).
      return load('horn', 'buzzer', band(part.volts / part.amps, 0.5, 2.5), part.volts);
    case 'motor':
      return load('motor', 'winding', motorLaw(part.amps, part.volts), part.volts);
    case 'heater':
      // Wire is a little better cold; plugs and seat pads spread more (common practice, no source).
      return load('heater', 'wire', band(part.volts / part.amps, 0.7, 1.35), part.volts);
    case 'solenoid':
      // Copper gains 0.39 % per kelvin: a hot coil has up to a third more.
      return load('solenoid', 'coil', band(part.ohms, 0.75, 1.4), part.volts);
    case 'load':
      return load('load', 'inside', unknownLoadLaw(part.amps, part.volts), part.volts);
    case 'resistor':
      builder.item(
        part,
        'body',
        inside('1'),
        inside('2'),
        band(part.ohms, 1 - part.tolerance, 1 + part.tolerance),
      );
      return;
    case 'resistor pack':
      for (const { between, ohms } of part.resistors) {
        const [from, to] = between;
        const law = band(ohms, 1 - part.tolerance, 1 + part.tolerance);
        builder.item(part, `${from}-${to}`, inside(from), inside(to), law);
      }
      return;
    case 'sender':
    case 'thermistor': {
      // One joint for all positions, so that a fault of the sender is there in each of them.
      const track = builder.node(`${part.id}:track inside`);
      builder.item(part, 'track lead', inside('1'), track, LEAD);
      for (const { position, ohms } of part.positions) {
        const closed = {
          kind: 'control',
          control: part.control,
          positions: new Set([position]),
        } as const;
        const law = contactLaw(ohmsBand(ohms, 1 - part.tolerance, 1 + part.tolerance), [closed]);
        builder.item(part, position, track, inside('2'), law);
      }
      return;
    }
    case 'diode':
      builder.load(part, 'junction', 'A', 'K', {
        kind: 'diode',
        forwardVolts: part.forwardVolts,
        ohms: 0.05,
        spread: 0.2,
      });
      return;
    case 'ground':
      builder.add(
        part.id,
        part.id,
        'position',
        builder.point(part.id),
        part.frame === undefined ? BODY : builder.point(part.frame),
        builder.joint(part.id),
      );
      return;
    case 'coupling': {
      const closed = { kind: 'control', control: part.control, positions: new Set(part.closed) } as const;
      builder.item(part, 'metal', builder.point(part.frame), BODY, contactLaw(COUPLING_OHMS, [closed]));
      return;
    }
    case 'splice':
      builder.point(part.id);
      return;
    case 'connector':
      for (const pin of part.pins) {
        const name = `${part.id}.${pin}`;
        const law = builder.joint(`${name}h`, `${name}c`);
        builder.add(name, part.id, 'position', builder.point(`${name}h`), builder.point(`${name}c`), law);
      }
      return;
  }
}

function compileRelay(builder: NetworkBuilder, part: Relay, nominalVolts: number): void {
  const coil = builder.load(part, 'coil', '86', '85', band(part.coilOhms, 0.8, 1.25));
  builder.watch(part, part.id, 'relay', coil, nominalVolts);
  const contact = (to: '87' | '87a', rest: 'open' | 'closed') => {
    const ohms =
      part.contactOhms === undefined ? builder.contact(part, '30', to) : ohmsBand(part.contactOhms, 0.1, 3.5);
    const { pullInVolts, dropOutVolts } = part;
    const law = contactLaw(ohms, [builder.coil(coil, { pullInVolts, dropOutVolts, rest })]);
    builder.item(part, `30-${to}`, builder.inside(part, '30'), builder.inside(part, to), law);
  };
  contact('87', 'open');
  if (part.changeOver) contact('87a', 'closed');
}
