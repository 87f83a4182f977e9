/** What to look at by eye at a fault's place: common practice, no source. */
import type { Circuit } from '../circuit/circuit.js';
import type { FaultInfo } from '../diagnosis/diagnosis-types.js';

/** One sentence for a place: which signs tell a bad contact, a chafed wire, a burnt item. */
export function lookHere(circuit: Circuit, { site, part, id }: FaultInfo): string {
  const wire = circuit.wires.find((candidate) => candidate.id === part);
  if (wire !== undefined) {
    const loom = wire.bundle === '' ? '' : ` in the ${wire.bundle}`;
    return /short|touching/.test(id)
      ? `${part} (${wire.from} to ${wire.to})${loom}: chafed where it passes a clamp, an edge or a hinge; bare or green copper, scorched insulation.`
      : `${part} (${wire.from} to ${wire.to})${loom}: stretched, thin or soft spots, green powder under the insulation, old repairs.`;
  }
  const found = circuit.parts.get(part);
  const name = found === undefined ? part : `${part} (${found.label})`;
  switch (found?.type) {
    case 'connector':
      return /touching|crossed/.test(id)
        ? `${name}: moisture or dirt between neighbouring pins, a pin in the wrong cavity, wire colours on both sides.`
        : `${name} at ${site}: green or black pins, a pin pushed back, a spread socket, water in the housing, discoloured plastic.`;
    case 'ground':
      return `${name} at ${site}: loose lug or bolt, rust or paint under the lug, broken strands at the crimp.`;
    case 'splice':
      return `${name} at ${site}: corroded or cold joint, strands broken beside the crimp, damp wrapping.`;
    case 'battery':
      return `${name} at ${site}: white or green powder on the posts, a loose clamp, a cable swollen or stiff beside it.`;
    case 'fuse':
    case 'fusible link':
      return site.includes(':')
        ? `${name}: a melted or cracked link, the rating printed on it, heat marks.`
        : `${name} at ${site}: a spread or burnt holder contact, discoloured plastic, hot smell.`;
    case 'lamp':
    case 'LED lamp':
      return site.includes(':')
        ? `${name}: a broken or sagging filament, black or milky glass, volts and watts printed on the base.`
        : `${name} at ${site}: burnt, flat or corroded holder contact, water in the lamp unit.`;
    case 'switch':
    case 'relay':
    case 'flasher':
      return `${name} at ${site}: hot smell, discoloured terminals, play in the mechanism.`;
    case 'motor':
    case 'solenoid':
    case 'heater':
    case 'horn':
      return `${name} at ${site}: corroded terminals, hot smell, something that blocks it.`;
    default:
      return `${name} at ${site}: corrosion, heat marks, hot smell, loose terminals.`;
  }
}
