/** What stands beside each piece of a drawing: names as they are typed at the prompt, and the few numbers that are on the part. */
import { calledOf, type Circuit, type Part, type PointId } from '../../circuit/circuit.js';
import type { Link } from '../../circuit/links.js';
import type { Standing } from './standing.js';

/** "W9 BKRD 1 mm2 0.7 m, tail loom". */
export function wireWords(circuit: Circuit, id: string): string {
  const wire = circuit.wires.find((one) => one.id === id)!;
  const size = `${round(wire.mm2)} mm2 ${round(wire.metres)} m`;
  return [
    `${id} ${wire.colour} ${size}`.replace('  ', ' '),
    ...(wire.bundle === '' ? [] : [wire.bundle]),
  ].join(', ');
}

/** What a part is, without its id: "left stop lamp, 21 W". */
export function partWords(circuit: Circuit, link: Link): string {
  const part = circuit.parts.get(link.owner)!;
  const label = part.label.split(' ').includes(part.id) ? part.type : part.label;
  const own = figureOf(part, link);
  return own === '' ? label : `${label}, ${own}`;
}

/** "open; closes with pedal down". */
export function contactWords({ control, closed, index }: Link, standing: Standing): string {
  const now = standing.closed.get(index);
  const state = now === undefined ? '' : now ? 'closed' : 'open';
  const when = control.startsWith('relay:')
    ? `closed while ${control.slice(6)} ${closed[0] === 'off' ? 'rests' : 'pulls'}`
    : `closed with ${control} ${closed.join(' or ')}`;
  return state === '' ? when : `${state.toUpperCase()} (${when})`;
}

/** A splice, stud or battery post by name: "SP3 stop splice in the tail loom". */
export function pointWords({ parts }: Circuit, point: PointId): string {
  const part = parts.get(point.split('.')[0]!);
  if (part === undefined) return point === 'body' ? 'body metal' : `frame ${point}`;
  if (part.type === 'battery')
    return `${point} ${part.label} ${point.endsWith('.30') ? '+ (bat+)' : '- (bat-)'}`;
  if (point === part.id) return part.label.split(' ').includes(point) ? part.label : `${point} ${part.label}`;
  return `${point} of ${calledOf(part)}`;
}

function figureOf(part: Part, { keys, kind }: Link): string {
  switch (part.type) {
    case 'fuse':
    case 'breaker':
    case 'fusible link':
      return `${round(part.amps)} A`;
    case 'lamp': {
      const own = part.filaments.find(({ terminal }) => keys.includes(terminal)) ?? part.filaments[0]!;
      return `${round(own.watts)} W`;
    }
    case 'LED lamp':
      return `LED ${round(part.watts)} W`;
    case 'horn':
    case 'buzzer':
    case 'motor':
    case 'heater':
    case 'load':
      return `${round(part.amps)} A`;
    case 'resistor':
      return `${round(part.ohms)} ohm`;
    case 'resistor pack':
      return `${round(part.resistors.find(({ between }) => keys.includes(between.join('-')))?.ohms ?? 0)} ohm`;
    case 'solenoid':
      return `${round(part.ohms)} ohm`;
    case 'relay':
      return kind === 'coil' ? `coil ${round(part.coilOhms)} ohm` : 'contact';
    case 'alternator':
      return kind === 'source' ? `${round(part.amps)} A` : 'field';
    case 'module':
      return keys[0] === 'supply' ? 'own supply' : insideWords(part, keys[0] ?? '');
    default:
      return '';
  }
}

function insideWords(module: Extract<Part, { type: 'module' }>, terminal: string): string {
  const input = module.inputs.find((one) => one.terminal === terminal);
  if (input !== undefined) {
    const pull = { up: ', pulled up', reference: ', pulled up to its reference', down: ', pulled down' };
    return `input${input.pull === undefined ? '' : pull[input.pull]}`;
  }
  const output = module.outputs.find((one) => one.terminal === terminal);
  if (output === undefined) return terminal === module.reference ? '5 V reference' : 'data line';
  const on = output.on?.map(({ input: name, state }) => `${name} ${state}`).join(' and ');
  return `output${on === undefined ? '' : `, on while ${on}`}${output.duty < 1 ? `, ${round(output.duty * 100)} % of the time` : ''}`;
}

export function round(value: number): string {
  return String(Number(value.toPrecision(3)));
}
