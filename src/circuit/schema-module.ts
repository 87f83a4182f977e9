/** The keys of an electronic module in a circuit file. Nearly all may be left out: what is unsaid may be either way. */
import { amount, numberedName, terminal, yesNo } from './schema-words.js';

const terminalName = { ...terminal, type: 'string' };
const state = { enum: ['high', 'low'], description: 'high or low' };
const word = { ...numberedName, description: 'the word that a scan tool shows, like pressed' };

const input = {
  type: 'object',
  description: 'an input like {pull: up, ohms: 1 kohm, reads: {high: released, low: pressed}}',
  additionalProperties: false,
  properties: {
    pull: {
      enum: ['up', 'down', 'reference'],
      description: 'up (to the supply), down (to ground) or reference (to its own 5 V)',
    },
    ohms: { ...amount('1 kohm'), description: 'the ohms of its pull resistor, like 1 kohm' },
    high: { ...amount('3 V'), description: 'the volts from which it counts as high, like 3 V' },
    low: { ...amount('1.5 V'), description: 'the volts up to which it counts as low, like 1.5 V' },
    reads: {
      type: ['object', 'string'],
      pattern: '^volts$',
      required: ['high', 'low'],
      additionalProperties: false,
      properties: { high: word, low: word },
      description: 'what a scan tool shows: volts, or words like {high: released, low: pressed}',
    },
  },
};

const output = {
  type: 'object',
  description: 'an output like {side: high, on: {2: low}, limit: 8 A}',
  required: ['side'],
  additionalProperties: false,
  properties: {
    side: {
      enum: ['high', 'low'],
      description: 'high (joins the terminal to the supply) or low (joins it to ground)',
    },
    on: {
      type: 'object',
      minProperties: 1,
      maxProperties: 8,
      propertyNames: terminalName,
      additionalProperties: state,
      description: 'the inputs that switch it on, all of them together, like {2: low}',
    },
    duty: { ...amount('60 %'), description: 'how much of the time it is closed while on, like 60 %' },
    flashes: yesNo,
    limit: { ...amount('8 A'), description: 'the current at which it shuts down, like 8 A' },
    'open-load': {
      ...amount('0.1 A'),
      description: 'the current below which it may shut down, like 0.1 A',
    },
    'pull-up': {
      ...amount('10 kohm'),
      description: 'the resistor with which it looks for its load, like 10 kohm',
    },
    'test pulses': yesNo,
  },
};

const byTerminal = (of: object, example: string) => ({
  type: 'object',
  minProperties: 1,
  maxProperties: 24,
  propertyNames: terminalName,
  additionalProperties: of,
  description: example,
});

export const moduleKeys = {
  supply: { ...terminal, description: 'the terminal that feeds it, like 30' },
  ground: { ...terminal, description: 'its ground terminal, like 31' },
  reference: { ...terminal, description: 'the terminal that gives 5 V to sensors, like 5' },
  inputs: byTerminal(
    input,
    'the inputs by terminal, like {2: {pull: up, reads: {high: released, low: pressed}}}',
  ),
  outputs: byTerminal(output, 'the outputs by terminal, like {7: {side: high, on: {2: low}}}'),
  can: {
    type: 'object',
    required: ['high', 'low'],
    additionalProperties: false,
    properties: {
      high: { ...terminal, description: 'the terminal of the CAN-high wire, like 10' },
      low: { ...terminal, description: 'the terminal of the CAN-low wire, like 11' },
      terminator: amount('120 ohm'),
    },
    description: 'the terminals of the data pair, like {high: 10, low: 11, terminator: 120 ohm}',
  },
  sleep: {
    ...amount('15 min'),
    description:
      'the time of rest after which it sleeps, like 15 min; never where it is awake as long as it is fed',
  },
  awake: { ...amount('0.2 A'), description: 'its own current while awake, like 0.2 A' },
  asleep: { ...amount('2 mA'), description: 'its own current while asleep, like 2 mA' },
};
