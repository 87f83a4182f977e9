/** Sites and parts in words a mechanic reads at the vehicle. */
import type { Circuit } from '../circuit/circuit.js';
import type { Element } from '../network/network.js';

/** "F4 (fuse stop lamps)", "wire W3 (F4.2 to X2.1h)"; the id alone where the circuit does not know it. */
export function partLabel(circuit: Circuit, id: string): string {
  const part = circuit.parts.get(id);
  if (part !== undefined) return `${id} (${part.label})`;
  const wire = circuit.wires.find((candidate) => candidate.id === id);
  if (wire === undefined) return id;
  return `wire ${id} (${wire.from} to ${wire.to}${wire.colour === '' ? '' : `, ${wire.colour}`})`;
}

/** Where exactly a fault sits: "pin 1 of X3 (left lamp connector)", "terminal 54 of H1 (left stop lamp)". */
export function siteLabel(circuit: Circuit, element: Element): string {
  if (element.owner === 'wire') return partLabel(circuit, element.part);
  const part = circuit.parts.get(element.part)!;
  const name = partLabel(circuit, part.id);
  const rest = element.site.slice(part.id.length + 1);
  if (element.owner === 'position') {
    if (part.type === 'connector') return `pin ${rest} of connector ${name}`;
    if (part.type === 'ground')
      return rest === '' ? `ground point ${name}` : `eyelet of wire ${rest} on ground ${name}`;
    if (part.type === 'splice') return `crimp of wire ${rest} in splice ${name}`;
    if (part.type === 'battery') return `${rest === '30' ? 'positive' : 'negative'} clamp of ${name}`;
    return `contact at terminal ${rest} of ${name}`;
  }
  const inner = rest.replace(/ lead$/, '');
  switch (part.type) {
    case 'fuse':
    case 'fusible link':
    case 'breaker':
    case 'battery':
    case 'resistor':
    case 'sender':
    case 'thermistor':
    case 'LED lamp':
    case 'buzzer':
    case 'load':
    case 'coupling':
      return name;
    case 'resistor pack':
      return `resistor ${inner} of ${name}`;
    case 'switch':
    case 'relay':
    case 'flasher':
      return inner.includes('-') ? `contact ${inner} of ${name}` : `${inner} of ${name}`;
    case 'lamp':
      return part.filaments.length === 1 ? `filament of ${name}` : `filament ${inner} of ${name}`;
    default:
      return `${inner} of ${name}`;
  }
}
