/** Parts that switch: contacts of switches, relays, senders, couplings. */
import { pointer } from './diagnostic.js';
import type { PartReader } from './part-reader.js';
import type { PartBase, Relay, Sender, SwitchContact } from './parts.js';

export function contactsOf(reader: PartReader): { control: string; contacts: SwitchContact[] } {
  const control = reader.control();
  const contacts = (reader.document.contacts ?? []).map((contact, index): SwitchContact => {
    const here = `${reader.at}/contacts/${index}`;
    return {
      between: reader.between(contact.between, 'contact', `${here}/between`),
      closed: reader.positions(control, contact.closed, `${here}/closed`),
    };
  });
  return { control: control?.id ?? reader.document.control ?? '', contacts };
}

export function couplingOf(reader: PartReader): { frame: string; control: string; closed: string[] } {
  const { document, at } = reader;
  const control = reader.control();
  return {
    frame: document.frame ?? '',
    control: control?.id ?? document.control ?? '',
    closed: reader.positions(control, document.closed ?? [], `${at}/closed`),
  };
}

/** Senders are coarse: 10 % unless told (common practice, no source). */
export function sensorOf(reader: PartReader): Pick<Sender, 'control' | 'positions' | 'tolerance'> {
  const { id, at, document, ranges, mistakes } = reader;
  const control = reader.control();
  const written = Object.entries((document.ohms ?? {}) as Readonly<Record<string, string>>);
  const positions = written.map(([typed, text]) => ({
    position: reader.position(control, typed, ranges.key(at + pointer('ohms', typed))),
    ohms: reader.amountAt(['ohms', typed], text, 'ohms', 100),
  }));
  for (const position of control?.positions ?? []) {
    if (positions.some((one) => one.position === position)) continue;
    mistakes.error(
      'missing-key',
      ranges.key(`${at}/ohms`),
      `${id} does not say how many ohms it has in position “${position}” of ${control!.id}`,
      `add ${position}: 100 ohm`,
    );
  }
  return {
    control: control?.id ?? document.control ?? '',
    positions,
    tolerance: reader.amount('tolerance', 'percent', 10) / 100,
  };
}

/**
 * Defaults are those of common plug-in relays: 85 Ω, pulls in by 8 V, surely out at 1.2 V in a 12 V system (component
 * data sheets; the low end of drop-out is common practice, no source). Volts scale with the system, ohms with its square.
 */
export function relayOf(base: PartBase, reader: PartReader): Relay {
  const { document, mistakes, ranges, at } = reader;
  const { nominalVolts } = reader.context;
  const scale = nominalVolts / 12;
  const pullInVolts = reader.amount('pull-in', 'volts', 8 * scale);
  const dropOutVolts = reader.amount('drop-out', 'volts', Math.min(1.2 * scale, pullInVolts / 2));
  if (dropOutVolts >= pullInVolts) {
    mistakes.error(
      'contradiction',
      ranges.value(at + pointer(document['drop-out'] === undefined ? 'pull-in' : 'drop-out')),
      `${base.id} would drop out at ${dropOutVolts} V but pull in only at ${pullInVolts} V`,
      'give a drop-out voltage well below the pull-in voltage',
    );
  }
  if (pullInVolts > nominalVolts) {
    mistakes.error(
      'contradiction',
      ranges.value(`${at}/pull-in`),
      `${base.id} needs ${pullInVolts} V to pull in, more than the ${nominalVolts} V of the system`,
      'correct pull-in, or nominal at the top of the file',
    );
  }
  return {
    ...base,
    type: 'relay',
    coilOhms: reader.amount('coil', 'ohms', 85 * scale * scale),
    pullInVolts,
    dropOutVolts,
    changeOver: document['change-over'] === 'true',
    contactOhms: document.contact === undefined ? undefined : reader.amount('contact', 'ohms', 0.001),
  };
}
