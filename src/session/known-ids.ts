/** Whether an event speaks only of things that the circuit has. Lines typed by a person are resolved before; event objects in a file are not. */
import { nearest } from '../circuit/nearest.js';
import type { Circuit } from '../circuit/circuit.js';
import type { Action, Event, Reading } from './events.js';
import { ENGINE } from './standing.js';
import { scanChoices, scanInputs, scanWords } from './scan-words.js';
import { namesOf, type NameList, type Names } from './names.js';

export interface UnknownId {
  readonly message: string;
  readonly mend: string;
}

/** The first name in the event that this circuit does not have, spelled as in its file; undefined when all are known. */
export function unknownId(event: Event, circuit: Circuit): UnknownId | undefined {
  const names = namesOf(circuit);
  switch (event.type) {
    case 'did':
      return inAction(event.action, circuit, names);
    case 'found':
      return (
        inReading(event.reading, circuit, names) ??
        (event.when ?? [])
          .map(([control, position]) => inPosition(control, position, circuit, names))
          .find(Boolean)
      );
    case 'assumed':
      return among('part', event.part, [names.parts, names.wires, names.points, names.pins]);
    case 'attempted':
      return inReading(event.reading, circuit, names);
    case 'claimed':
    case 'concluded':
      return among('part, wire or point', event.at, [names.parts, names.wires, names.points, names.pins]);
    default:
      return undefined;
  }
}

function inReading(reading: Reading, circuit: Circuit, names: Names): UnknownId | undefined {
  switch (reading.kind) {
    case 'volts':
    case 'ohms':
    case 'continuity':
    case 'test lamp':
      return (
        among('probe point', reading.red, [names.points]) ??
        among('probe point', reading.black, [names.points])
      );
    case 'amps':
    case 'clamp':
      return among('wire, terminal or pin', reading.at, [names.wires, names.pins, names.points]);
    case 'load':
      return among('load', reading.load, [names.loads]);
    case 'fuse lamp':
      return among('part', reading.part, [names.parts]);
    case 'scan':
      return inScan(reading, circuit);
    case 'look':
      return among('part, wire or point', reading.at, [names.parts, names.wires, names.points, names.pins]);
  }
}

function inScan(
  { module, input, value }: Extract<Reading, { kind: 'scan' }>,
  circuit: Circuit,
): UnknownId | undefined {
  const inputs = scanInputs(circuit);
  const name = `${module}.${input}`;
  const known = inputs.get(name);
  if (known === undefined)
    return among('module input', name, [new Map([...inputs.keys()].map((id) => [id, id]))]);
  if (typeof value === 'object' || value === 'no answer' || scanWords(known).includes(value))
    return undefined;
  return { message: `${name} never reads "${value}"`, mend: `It reads: ${scanChoices(known)}.` };
}

function inAction(action: Action, circuit: Circuit, names: Names): UnknownId | undefined {
  switch (action.do) {
    case 'operate':
      return inPosition(action.control, action.position, circuit, names);
    case 'engine':
    case 'wait':
      return undefined;
    case 'unplug':
    case 'plug':
      return among('connector', action.connector, [names.connectors]);
    case 'take out':
    case 'refit':
    case 'fit new':
    case 'fit known-good':
    case 'lamp in place':
    case 'remove lamp':
    case 'reset':
      return among('part', action.part, [names.parts]);
    case 'swap':
      return among('part', action.parts[0], [names.parts]) ?? among('part', action.parts[1], [names.parts]);
    case 'jumper':
    case 'remove jumper':
      return (
        among('point', action.between[0], [names.points]) ?? among('point', action.between[1], [names.points])
      );
    case 'clean':
    case 'tighten':
    case 'reseat':
    case 'wiggle':
    case 'repair':
      return among('part, wire or point', action.at, [names.parts, names.wires, names.points, names.pins]);
  }
}

function inPosition(
  control: string,
  position: string,
  circuit: Circuit,
  names: Names,
): UnknownId | undefined {
  const known = circuit.controls.get(control);
  if (!known && control === ENGINE)
    return position === 'running' || position === 'off'
      ? undefined
      : { message: `The engine is off or running, not "${position}"`, mend: 'Write off or running.' };
  if (!known) return among('control', control, [names.controls]);
  if (known.positions.includes(position)) return undefined;
  return {
    message: `${control} has no position "${position}"`,
    mend: `Its positions: ${known.positions.join(', ')}.`,
  };
}

function among(what: string, name: string, lists: readonly NameList[]): UnknownId | undefined {
  const known = lists.flatMap((list) => [...list.values()]);
  if (known.includes(name)) return undefined;
  const close = nearest(name, known);
  return {
    message: `This circuit has no ${what} "${name}"`,
    mend: close === undefined ? 'Check the name in the circuit file.' : `Did you mean ${close}?`,
  };
}
