/** Parts of the document → parts of the circuit: units read, defaults filled in, names looked up. */
import type { Control, Filament, Part, PartBase, PartType, SwitchContact } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { PartDocument } from './document.js';
import type { Mistakes } from './mistakes.js';
import { didYouMean } from './nearest.js';
import type { Quantity } from './quantity.js';

export interface PartContext {
  readonly nominalVolts: number;
  readonly controls: ReadonlyMap<string, Control>;
  /** Place names by lower case. */
  readonly places: ReadonlyMap<string, string>;
  readonly ranges: Ranges;
  readonly mistakes: Mistakes;
}

/** Pin numbers by standard: ISO 1724 (12N, seven pins), ISO 11446 (13 pins), ISO 1185 (24N, seven pins). */
const STANDARD_PINS: ReadonlyMap<string, number> = new Map([
  ['ISO 1724', 7],
  ['ISO 11446', 13],
  ['ISO 1185', 7],
]);

/** Reads one part. Mistakes are noted; the part comes out whole all the same, so that later rules can go on. */
export function buildPart(id: string, document: PartDocument, context: PartContext): Part {
  const { nominalVolts, ranges, mistakes } = context;
  const at = pointer('parts', id);
  const amount = (key: keyof PartDocument & string, quantity: Quantity, fallback: number) =>
    mistakes.amount(document[key] as string | undefined, quantity, ranges.value(at + pointer(key)), fallback);
  const base: PartBase = {
    id,
    label: document.name ?? `${document.type} ${id}`,
    place: placeOf(document.place, at, context),
    price: amount('price', 'money', 0),
    neverProbe: document['never-probe'] === 'true',
  };
  const volts = () => {
    const rated = amount('volts', 'volts', nominalVolts);
    if (rated > nominalVolts * 1.25 || rated < nominalVolts * 0.8) {
      mistakes.advice(
        'other-voltage',
        ranges.value(`${at}/volts`),
        `${base.label} is made for ${rated} V, but the system has ${nominalVolts} V`,
        'correct it, unless the part really runs on another voltage',
      );
    }
    return rated;
  };
  const amps = () => {
    const rated = volts();
    if ((document.amps === undefined) === (document.watts === undefined)) {
      mistakes.error(
        document.amps === undefined ? 'missing-key' : 'contradiction',
        ranges.key(document.amps === undefined ? at : `${at}/watts`),
        document.amps === undefined ? `${id} has neither amps nor watts` : `${id} has both amps and watts`,
        'give one of them, as on the part: amps: 5 A or watts: 60 W',
      );
    }
    const value =
      document.amps === undefined ? amount('watts', 'watts', 60) / rated : amount('amps', 'amps', 5);
    return { amps: value, volts: rated };
  };
  const type: PartType = document.type;
  switch (type) {
    case 'battery':
      return battery(base, context, amount);
    case 'fuse':
      return { ...base, type, amps: amount('rating', 'amps', 10) };
    case 'switch':
      return { ...base, type, ...contactsOf(id, document, context) };
    case 'relay':
      return relay(base, document, context, amount);
    case 'lamp':
      return { ...base, type, filaments: filamentsOf(id, document, volts(), context) };
    case 'horn':
      return { ...base, type, ...amps() };
    case 'motor':
      return { ...base, type, ...amps(), drives: document.drives ?? '' };
    case 'resistor':
      return {
        ...base,
        type,
        ohms: amount('ohms', 'ohms', 1),
        tolerance: amount('tolerance', 'percent', 5) / 100,
      };
    case 'diode':
      // 0.7 V: silicon at a few hundred milliamperes (from memory).
      return { ...base, type, forwardVolts: amount('forward', 'volts', 0.7) };
    case 'ground':
    case 'splice':
      return { ...base, type };
    case 'connector':
      return { ...base, type, pins: pinsOf(id, document, context) };
  }
}

type Amount = (key: keyof PartDocument & string, quantity: Quantity, fallback: number) => number;

/** A rested, full lead-acid battery has 2.1 V a cell; 10 mΩ is a mid-size 12 V one (both from memory). */
function battery(base: PartBase, { nominalVolts, ranges, mistakes }: PartContext, amount: Amount): Part {
  const volts = amount('volts', 'volts', nominalVolts * 1.05);
  if (volts > nominalVolts * 1.4 || volts < nominalVolts * 0.5) {
    mistakes.error(
      'contradiction',
      ranges.value(pointer('parts', base.id, 'volts')),
      `the battery has ${volts} V, but nominal says ${nominalVolts} V`,
      'correct one of the two',
    );
  }
  return { ...base, type: 'battery', volts, ohms: amount('ohms', 'ohms', (0.01 * nominalVolts) / 12) };
}

/**
 * Defaults are those of common plug-in relays: 85 Ω, pulls in by 8 V, surely out at 1.2 V in a 12 V system (component
 * data sheets; the low end of drop-out is common practice, no source). Volts scale with the system, ohms with its square.
 */
function relay(base: PartBase, document: PartDocument, context: PartContext, amount: Amount): Part {
  const scale = context.nominalVolts / 12;
  const pullInVolts = amount('pull-in', 'volts', 8 * scale);
  const dropOutVolts = amount('drop-out', 'volts', Math.min(1.2 * scale, pullInVolts / 2));
  if (dropOutVolts >= pullInVolts) {
    context.mistakes.error(
      'contradiction',
      context.ranges.value(
        pointer('parts', base.id, document['drop-out'] === undefined ? 'pull-in' : 'drop-out'),
      ),
      `${base.id} would drop out at ${dropOutVolts} V but pull in only at ${pullInVolts} V`,
      'give a drop-out voltage well below the pull-in voltage',
    );
  }
  if (pullInVolts > context.nominalVolts) {
    context.mistakes.error(
      'contradiction',
      context.ranges.value(pointer('parts', base.id, 'pull-in')),
      `${base.id} needs ${pullInVolts} V to pull in, more than the ${context.nominalVolts} V of the system`,
      'correct pull-in, or nominal at the top of the file',
    );
  }
  return {
    ...base,
    type: 'relay',
    coilOhms: amount('coil', 'ohms', 85 * scale * scale),
    pullInVolts,
    dropOutVolts,
    changeOver: document['change-over'] === 'true',
  };
}

function placeOf(typed: string, at: string, { places, ranges, mistakes }: PartContext): string {
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

function contactsOf(
  id: string,
  document: PartDocument,
  { controls, ranges, mistakes }: PartContext,
): { control: string; contacts: SwitchContact[] } {
  const at = pointer('parts', id);
  const typed = document.control ?? '';
  const control = [...controls.values()].find((one) => one.id.toLowerCase() === typed.toLowerCase());
  if (!control) {
    mistakes.error(
      'unknown-name',
      ranges.value(`${at}/control`),
      `${id} is worked by “${typed}”, but there is no control of that name`,
      didYouMean(typed, controls.keys(), 'control'),
    );
  }
  const contacts = (document.contacts ?? []).map((contact, index): SwitchContact => {
    const here = `${at}/contacts/${index}`;
    const [a, b] = contact.between;
    if (a.toLowerCase() === b.toLowerCase()) {
      mistakes.error(
        'contradiction',
        ranges.value(`${here}/between`),
        `a contact cannot join ${a} to itself`,
        'name two terminals',
      );
    }
    const list = typeof contact.closed === 'string' ? [contact.closed] : contact.closed;
    const closed = list.map((position, nth) => {
      const found = control?.positions.find((one) => one.toLowerCase() === position.toLowerCase());
      if (control && found === undefined) {
        mistakes.error(
          'unknown-name',
          ranges.value(typeof contact.closed === 'string' ? `${here}/closed` : `${here}/closed/${nth}`),
          `${control.id} has no position “${position}”`,
          didYouMean(position, control.positions, 'position'),
        );
      }
      return found ?? position;
    });
    return { between: [a, b], closed };
  });
  return { control: control?.id ?? typed, contacts };
}

function filamentsOf(
  id: string,
  document: PartDocument,
  volts: number,
  { ranges, mistakes }: PartContext,
): Filament[] {
  const at = pointer('parts', id);
  const { watts, filaments } = document;
  if ((watts === undefined) === (filaments === undefined)) {
    mistakes.error(
      watts === undefined ? 'missing-key' : 'contradiction',
      ranges.key(watts === undefined ? at : `${at}/filaments`),
      watts === undefined ? `${id} has neither watts nor filaments` : `${id} has both watts and filaments`,
      'give watts: 21 W for one filament, or filaments: {54: 21 W, 58: 5 W} for two',
    );
  }
  if (filaments === undefined) {
    return [
      { terminal: '1', watts: mistakes.amount(watts, 'watts', ranges.value(`${at}/watts`), 21), volts },
    ];
  }
  return Object.entries(filaments).map(([terminal, text]) => {
    const here = at + pointer('filaments', terminal);
    if (terminal === '31') {
      mistakes.error(
        'contradiction',
        ranges.key(here),
        `31 is the ground terminal of lamp ${id}`,
        'use the feed terminal, such as 54 or 58',
      );
    }
    return { terminal, watts: mistakes.amount(text, 'watts', ranges.value(here), 21), volts };
  });
}

function pinsOf(id: string, document: PartDocument, { ranges, mistakes }: PartContext): string[] {
  const at = pointer('parts', id);
  const { pins, standard } = document;
  const numbered = (count: number) => Array.from({ length: count }, (_, index) => String(index + 1));
  const count = standard === undefined ? undefined : STANDARD_PINS.get(standard);
  if (pins === undefined) {
    if (count === undefined) {
      mistakes.error(
        'missing-key',
        ranges.key(at),
        `${id} does not say how many pins it has`,
        'add pins: 2, or pins: [1, 2]',
      );
    }
    return numbered(count ?? 0);
  }
  const list = typeof pins === 'string' ? numbered(Number(pins)) : [...pins];
  if (count !== undefined && list.some((pin) => !numbered(count).includes(pin))) {
    mistakes.error(
      'contradiction',
      ranges.value(`${at}/pins`),
      `a connector to ${standard} has the pins 1 to ${count}`,
      'leave out pins, or leave out standard',
    );
  }
  const seen = new Map<string, string>();
  list.forEach((pin, index) => {
    const twin = seen.get(pin.toLowerCase());
    if (twin !== undefined) {
      mistakes.error(
        'duplicate-id',
        ranges.value(`${at}/pins/${index}`),
        `pin ${pin} is listed twice`,
        'delete one, or correct the number',
      );
    }
    seen.set(pin.toLowerCase(), pin);
  });
  return [...new Set(list)];
}
