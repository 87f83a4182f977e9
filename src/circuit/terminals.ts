/** What can be said of any part without knowing more: its terminals, the loads it holds, its name in a sentence. */
import type { Part } from './parts.js';

/** What to call a part in a sentence: `left stop lamp (H1)`, or `lamp H1` when it has no name of its own. */
export function calledOf(part: Part): string {
  return part.label.split(' ').includes(part.id) ? part.label : `${part.label} (${part.id})`;
}

/** Terminals of a part in file order, without the part id; none for ground points, splices, connectors and couplings. */
export function terminalsOf(part: Part): readonly string[] {
  switch (part.type) {
    case 'battery':
      return ['30', '31'];
    case 'fuse':
    case 'fusible link':
    case 'breaker':
    case 'motor':
    case 'heater':
    case 'solenoid':
    case 'resistor':
    case 'sender':
    case 'thermistor':
      return ['1', '2'];
    case 'switch':
      return [...new Set(part.contacts.flatMap((contact) => contact.between))];
    case 'resistor pack':
      return [...new Set(part.resistors.flatMap((resistor) => resistor.between))];
    case 'relay':
      return part.changeOver ? ['30', '85', '86', '87', '87a'] : ['30', '85', '86', '87'];
    case 'lamp':
      return [...part.filaments.map((filament) => filament.terminal), '31'];
    case 'LED lamp':
    case 'horn':
    case 'buzzer':
    case 'load':
      return ['1', '31'];
    case 'diode':
      return ['A', 'K'];
    case 'alternator':
    case 'flasher':
      return part.terminals;
    case 'module':
      return [
        part.supply,
        part.ground,
        ...(part.reference === undefined ? [] : [part.reference]),
        ...part.inputs.map(({ terminal }) => terminal),
        ...part.outputs.map(({ terminal }) => terminal),
        ...(part.can === undefined ? [] : [part.can.high, part.can.low]),
      ];
    case 'ground':
    case 'splice':
    case 'connector':
    case 'coupling':
      return [];
  }
}

/** Every load a person can watch, as `PART` or `PART.TERMINAL`; relays and solenoids are listened to. */
export function loadsOf(part: Part): readonly string[] {
  switch (part.type) {
    case 'lamp':
      return part.filaments.length === 1
        ? [part.id]
        : part.filaments.map((filament) => `${part.id}.${filament.terminal}`);
    case 'LED lamp':
    case 'horn':
    case 'buzzer':
    case 'motor':
    case 'heater':
    case 'solenoid':
    case 'load':
    case 'relay':
      return [part.id];
    default:
      return [];
  }
}
