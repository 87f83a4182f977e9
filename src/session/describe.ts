/** Points, readings, actions and set-ups in words: the echo of what was understood, and the report's lines. */
import type { Circuit } from '../circuit/circuit.js';
import { framesOf } from '../circuit/points.js';
import type { Action, Reading } from './events.js';
import { formatTyped } from './format-typed.js';
import { KNOWN_GOOD, type SetUp } from './setup.js';

/** `X3.1h (left lamp connector pin 1, harness side)`, `battery negative`, `W3 (wire SP1 to S1.30)`, `F4 (fuse)`. */
export function describePlace(circuit: Circuit, name: string): string {
  if (name === 'bat+') return 'battery positive';
  if (name === 'bat-') return 'battery negative';
  if (name === 'body') return 'body metal';
  if (framesOf(circuit.parts).includes(name)) return `${name} metal`;
  const whole = circuit.parts.get(name);
  if (whole) return whole.label === '' ? name : `${name} (${whole.label})`;
  const wire = circuit.wires.find((candidate) => candidate.id === name);
  if (wire) return `${name} (wire ${wire.from} to ${wire.to}${wire.colour === '' ? '' : `, ${wire.colour}`})`;
  const dot = name.indexOf('.');
  const part = circuit.parts.get(name.slice(0, dot));
  if (!part) return name;
  const label = part.label === '' ? part.id : part.label;
  const terminal = name.slice(dot + 1);
  if (part.type === 'connector') {
    const side = terminal.endsWith('h') ? ', harness side' : terminal.endsWith('c') ? ', component side' : '';
    return `${name} (${label} pin ${side === '' ? terminal : terminal.slice(0, -1)}${side})`;
  }
  return terminal.endsWith('i')
    ? `${name} (${label} terminal ${terminal.slice(0, -1)}, on the item itself)`
    : `${name} (${label} terminal ${terminal})`;
}

/** A load with its label: `H1 (left stop lamp)`, `H1.54 (left lamp, filament 54)`. */
export function describeLoad(circuit: Circuit, load: string): string {
  const [id, terminal] = load.split('.');
  const label = circuit.parts.get(id!)?.label ?? '';
  const words = [label, terminal === undefined ? '' : `filament ${terminal}`].filter((word) => word !== '');
  return words.length === 0 ? load : `${load} (${words.join(', ')})`;
}

const VOLTS_MODES = {
  'low impedance': ', low-impedance meter',
  loaded: ', with a test lamp across',
} as const;

/** Value with unit and every probe point. */
export function describeReading(circuit: Circuit, reading: Reading): string {
  const place = (name: string): string => describePlace(circuit, name);
  switch (reading.kind) {
    case 'volts':
      return `${formatTyped(reading.value, 'volts')}: red ${place(reading.red)}, black ${place(reading.black)}${reading.mode === undefined ? '' : VOLTS_MODES[reading.mode]}`;
    case 'ohms': {
      const value = reading.value === 'OL' ? 'OL (no end value)' : formatTyped(reading.value, 'ohms');
      return `${value}: between ${place(reading.red)} and ${place(reading.black)}`;
    }
    case 'continuity':
      return `${reading.value}: between ${place(reading.red)} and ${place(reading.black)}`;
    case 'amps':
      return `${formatTyped(reading.value, 'amps')}: meter in line at ${place(reading.at)}`;
    case 'clamp':
      return `${formatTyped(reading.value, 'amps')}: clamp around ${place(reading.at)}`;
    case 'fuse lamp':
      return `test lamp in place of ${place(reading.part)}: ${reading.value}`;
    case 'scan': {
      const input = place(`${reading.module}.${reading.input}`);
      if (typeof reading.value === 'object')
        return `scan value ${formatTyped(reading.value, 'volts')}: ${input}`;
      return reading.value === 'no answer'
        ? `no answer from ${place(reading.module)}, asked for ${input}`
        : `scan value ${reading.value}: ${input}`;
    }
    case 'test lamp': {
      const lamp = reading.lamp === 'LED' ? 'LED test lamp' : 'test lamp';
      return `${lamp} ${reading.value}: tip on ${place(reading.red)}, clip on ${place(reading.black)}`;
    }
    case 'load':
      return `${describeLoad(circuit, reading.load)}: ${reading.value}`;
    case 'look':
      return `${place(reading.at)} looks ${reading.value}`;
  }
}

export function describeAction(circuit: Circuit, action: Action): string {
  const place = (name: string): string => describePlace(circuit, name);
  switch (action.do) {
    case 'operate':
      return `${action.control} ${action.position}`;
    case 'engine':
      return `engine ${action.state}`;
    case 'unplug':
    case 'plug':
      return `${action.do} ${place(action.connector)}`;
    case 'take out':
      return `take out ${place(action.part)}`;
    case 'refit':
      return `refit the item that was there: ${place(action.part)}`;
    case 'fit new':
      return `fit a new item: ${place(action.part)}`;
    case 'fit known-good':
      return `fit a known-good item and keep the own one: ${place(action.part)}`;
    case 'swap':
      return `swap ${place(action.parts[0])} and ${place(action.parts[1])}`;
    case 'lamp in place':
      return `test lamp in place of ${place(action.part)}`;
    case 'remove lamp':
      return `take the test lamp off: ${place(action.part)}`;
    case 'wait':
      return `everything off and left alone for ${action.minutes} min`;
    case 'reset':
      return `reset ${place(action.part)}`;
    case 'jumper':
    case 'remove jumper':
      return `${action.do} between ${place(action.between[0])} and ${place(action.between[1])}`;
    case 'clean':
    case 'tighten':
    case 'reseat':
    case 'wiggle':
      return `${action.do} ${place(action.at)}`;
    case 'repair': {
      const cost = [
        ...(action.minutes === undefined ? [] : [`${action.minutes} min`]),
        ...(action.price === undefined ? [] : [`price ${action.price}`]),
      ];
      return [`repair ${place(action.at)}: ${action.how}`, ...cost].join(', ');
    }
  }
}

/** Whatever differs from everything at rest, plugged and fitted: `gear reverse`, `X3 unplugged`. Empty = at rest. */
export function describeSetUp(circuit: Circuit, setUp: SetUp): readonly string[] {
  return [
    ...[...circuit.controls.values()]
      .filter((control) => setUp.controls.get(control.id) !== control.positions[0])
      .map((control) => `${control.id} ${setUp.controls.get(control.id)}`),
    ...(setUp.engine === 'running' ? ['engine running'] : []),
    ...[...setUp.unplugged].map((connector) => `${connector} unplugged`),
    ...[...setUp.out].filter((part) => !setUp.lamps.has(part)).map((part) => `${part} taken out`),
    ...[...setUp.lamps].map((part) => `test lamp in place of ${part}`),
    ...[...setUp.fitted].map(([part, item]) =>
      item === KNOWN_GOOD ? `${part} holds a known-good item` : `${part} holds the item of ${item}`,
    ),
    ...setUp.jumpers.map((ends) => `jumper ${ends.join(' to ')}`),
    ...(setUp.rested === 0 ? [] : [`left alone for ${setUp.rested} min`]),
  ];
}
