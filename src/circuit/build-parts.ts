/** Parts of the document → parts of the circuit: units read, defaults filled in, names looked up. */
import { adviseRating, fromCatalogue } from './build-catalogue.js';
import { pinsOf } from './build-connector.js';
import { filamentsOf } from './build-lamp.js';
import { moduleOf } from './build-module.js';
import { contactsOf, couplingOf, relayOf, sensorOf } from './build-switching.js';
import { pointer } from './diagnostic.js';
import type { PartDocument } from './document.js';
import { didYouMean } from './nearest.js';
import { PartReader, type PartContext } from './part-reader.js';
import { weakSpotOf } from './weak-spot.js';
import type { Battery, Part, PartBase, PartType, ResistorPack } from './parts.js';

/** Reads one part. Mistakes are noted; the part comes out whole all the same, so that later rules can go on. */
export function buildPart(id: string, written: PartDocument, context: PartContext): Part {
  const document = fromCatalogue(id, written, context);
  const reader = new PartReader(id, document, context);
  const base: PartBase = {
    id,
    label: document.name ?? `${document.type} ${id}`,
    place: placeOf(reader),
    price: reader.amount('price', 'money', 0),
    neverProbe: document['never-probe'] === 'true',
    ...weakSpotOf(document['weak spot'], reader.at, context),
  };
  const { label } = base;
  const tolerance = () => reader.amount('tolerance', 'percent', 5) / 100;
  const type: PartType = document.type;
  switch (type) {
    case 'battery':
      return batteryOf(base, reader);
    case 'alternator':
      return alternatorOf(base, reader);
    case 'fuse': {
      const amps = reader.amount('rating', 'amps', 10);
      adviseRating(reader, amps);
      return { ...base, type, amps };
    }
    case 'fusible link':
      return { ...base, type, amps: reader.amount('rating', 'amps', 10) };
    case 'breaker':
      return {
        ...base,
        type,
        amps: reader.amount('rating', 'amps', 10),
        reset: document.reset === 'manual' ? 'manual' : 'automatic',
      };
    case 'switch':
      return { ...base, type, ...contactsOf(reader) };
    case 'relay':
      return relayOf(base, reader);
    case 'flasher':
      return { ...base, type, terminals: terminalsOf(reader, ['49', '49a'], ['49', '49a']) };
    case 'lamp':
      return { ...base, type, filaments: filamentsOf(reader, reader.volts(label)) };
    case 'LED lamp':
      return { ...base, type, watts: reader.amount('watts', 'watts', 3), volts: reader.volts(label) };
    case 'horn':
    case 'buzzer':
    case 'heater':
    case 'load':
      return { ...base, type, ...reader.drawn(label, ['amps', 'watts']) };
    case 'solenoid': {
      const { amps, volts } = reader.drawn(label, ['amps', 'watts', 'ohms']);
      return { ...base, type, ohms: volts / amps, volts };
    }
    case 'motor': {
      const rated = reader.drawn(label, ['amps', 'watts']);
      // Held fast it has about a fifth of its running resistance (common practice, no source).
      const stallAmps = reader.amount('stall', 'amps', rated.amps * 5);
      return { ...base, type, ...rated, stallAmps, drives: document.drives ?? '' };
    }
    case 'resistor':
      return { ...base, type, ohms: reader.amount('ohms', 'ohms', 1), tolerance: tolerance() };
    case 'resistor pack':
      return { ...base, type, resistors: resistorsOf(reader), tolerance: tolerance() };
    case 'sender':
    case 'thermistor':
      return { ...base, type, ...sensorOf(reader) };
    case 'diode':
      // 0.7 V: silicon at a few hundred milliamperes (from memory).
      return { ...base, type, forwardVolts: reader.amount('forward', 'volts', 0.7) };
    case 'module':
      return moduleOf(base, reader);
    case 'ground':
      return { ...base, type, frame: document.frame };
    case 'coupling':
      return { ...base, type, ...couplingOf(reader) };
    case 'splice':
      return { ...base, type };
    case 'connector':
      return { ...base, type, pins: pinsOf(reader) };
  }
}

/** A rested, full lead-acid battery has 2.1 V a cell; 10 mΩ is a mid-size 12 V one (both from memory). */
function batteryOf(base: PartBase, reader: PartReader): Battery {
  const { nominalVolts } = reader.context;
  const volts = reader.amount('volts', 'volts', nominalVolts * 1.05);
  if (volts > nominalVolts * 1.4 || volts < nominalVolts * 0.5) {
    reader.mistakes.error(
      'contradiction',
      reader.ranges.value(pointer('parts', base.id, 'volts')),
      `the battery has ${volts} V, but nominal says ${nominalVolts} V`,
      'correct one of the two',
    );
  }
  return { ...base, type: 'battery', volts, ohms: reader.amount('ohms', 'ohms', (0.01 * nominalVolts) / 12) };
}

/** Regulators hold 13.8 to 14.7 V at 12 V (trade practice, from memory); 14.2 V is the middle. */
function alternatorOf(base: PartBase, reader: PartReader): Part {
  const { nominalVolts } = reader.context;
  const volts = reader.amount('volts', 'volts', (14.2 * nominalVolts) / 12);
  if (volts > nominalVolts * 1.35 || volts < nominalVolts * 1.08) {
    reader.mistakes.error(
      'contradiction',
      reader.ranges.value(`${reader.at}/volts`),
      `the alternator holds ${volts} V, but a system of ${nominalVolts} V is charged with about ${((nominalVolts * 14.2) / 12).toFixed(1)} V`,
      'give the volts that its regulator holds, or leave volts out',
    );
  }
  return {
    ...base,
    type: 'alternator',
    amps: reader.amount('amps', 'amps', 70),
    volts,
    terminals: terminalsOf(reader, ['B+', '31'], ['B+']),
  };
}

/** The terminals a part says it has, or its usual ones; notes a missing one that it cannot do without. */
function terminalsOf(
  reader: PartReader,
  usual: readonly string[],
  needed: readonly string[],
): readonly string[] {
  const given = reader.document.terminals;
  if (given === undefined) return usual;
  for (const terminal of needed) {
    if (given.includes(terminal)) continue;
    reader.mistakes.error(
      'contradiction',
      reader.ranges.value(`${reader.at}/terminals`),
      `${reader.id} has no terminal ${terminal}, without which it does nothing`,
      `add ${terminal} to the list`,
    );
  }
  return given;
}

function resistorsOf(reader: PartReader): ResistorPack['resistors'] {
  return (reader.document.resistors ?? []).map(({ between, ohms }, index) => ({
    between: reader.between(between, 'resistor', `${reader.at}/resistors/${index}/between`),
    ohms: reader.amountAt(['resistors', index, 'ohms'], ohms, 'ohms', 1),
  }));
}

function placeOf({ document, at, context }: PartReader): string {
  const { places, ranges, mistakes } = context;
  const typed = document.place;
  const place = places.get(typed.toLowerCase());
  if (place === undefined) {
    mistakes.error(
      'unknown-name',
      ranges.value(`${at}/place`),
      `there is no place called “${typed}”`,
      didYouMean(typed, places.values(), 'place'),
    );
  }
  return place ?? typed;
}
