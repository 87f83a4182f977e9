/** Test lamps and jumpers on the lines of an electronic module, and on airbag lines. Common practice in the trade, no source. */
import { expect, test } from 'vitest';
import type { Circuit, Part } from '../../src/circuit/circuit.js';
import type { Event } from '../../src/session/events.js';
import { atRest } from '../../src/session/setup.js';
import { cautionsFor } from '../../src/planning/cautions.js';
import { cautionCircuit } from './caution-circuit.js';

const base = { price: 0, neverProbe: false, place: 'cab' };
const output = {
  on: undefined,
  duty: 1,
  flashes: false,
  limitAmps: undefined,
  openLoadAmps: undefined,
  pullUpOhms: undefined,
  testPulses: false,
};
const added: readonly Part[] = [
  {
    ...base,
    id: 'A1',
    type: 'module',
    label: 'body module',
    supply: '30',
    ground: '31',
    reference: undefined,
    inputs: [],
    outputs: [
      { ...output, terminal: '5', side: 'high' },
      { ...output, terminal: '6', side: 'low' },
    ],
    can: undefined,
    sleepMinutes: undefined,
    awakeAmps: 0.2,
    asleepAmps: 0.01,
  },
  { ...base, id: 'X7', type: 'connector', label: 'module connector', pins: ['5', '6'] },
  { ...base, id: 'X6', type: 'connector', label: 'airbag connector', pins: ['1'] },
];
const wire = (id: string, from: string, to: string): Circuit['wires'][number] => ({
  ...cautionCircuit.wires[0]!,
  id,
  from,
  to,
});
const circuit: Circuit = {
  ...cautionCircuit,
  parts: new Map([...cautionCircuit.parts, ...added.map((part) => [part.id, part] as const)]),
  wires: [
    ...cautionCircuit.wires,
    wire('W30', 'SP1', 'A1.30'),
    wire('W31', 'A1.31', 'GP1'),
    wire('W32', 'A1.5', 'X7.5h'),
    wire('W33', 'A1.6', 'X7.6h'),
  ],
};
const rest = atRest(circuit);
const lamp = (red: string): Event => ({
  type: 'found',
  reading: { kind: 'test lamp', red, black: 'bat-', value: 'lit', lamp: 'filament' },
});
const loaded = (red: string): Event => ({
  type: 'found',
  reading: { kind: 'volts', red, black: 'bat-', value: { value: 12, step: 0.1 }, mode: 'loaded' },
});
const jumper = (a: string, b: string): Event => ({ type: 'did', action: { do: 'jumper', between: [a, b] } });

test.each([
  ['a test lamp on an output line', lamp('X7.5c'), 'test-lamp-module', 'stop'],
  ['a test lamp on the supply', lamp('A1.30'), 'test-lamp-modules', 'note'],
  ['a test lamp beside a voltmeter on an output line', loaded('X7.5c'), 'test-lamp-module', 'stop'],
  ['a test lamp beside a voltmeter on an airbag line', loaded('X6.1h'), 'airbag-line', 'refused'],
  ['a jumper from an output that feeds to body', jumper('X7.5h', 'body'), 'jumper-module-output', 'refused'],
  [
    'a jumper from feed to an output that grounds',
    jumper('F1.2', 'X7.6h'),
    'jumper-module-output',
    'refused',
  ],
  ['a jumper from an output that grounds to body', jumper('X7.6h', 'body'), 'jumper-module', 'stop'],
  ['a test lamp on an airbag line', lamp('X6.1h'), 'airbag-line', 'refused'],
] as const)('when there is %s then it is cautioned', (_title, event, id, weight) => {
  const caution = cautionsFor(circuit, rest, event).find((one) => one.id === id);
  expect(caution).toMatchObject({ stop: weight !== 'note', refused: weight === 'refused' });
});

test('when the module is unplugged then its loose line is a plain one', () => {
  const apart = { ...rest, unplugged: new Set(['X7']) };
  const ids = cautionsFor(circuit, apart, lamp('X7.5c')).map((one) => one.id);
  expect(ids).toEqual(['test-lamp-modules']);
});
