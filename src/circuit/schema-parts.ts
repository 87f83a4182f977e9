/** The shape of each kind of part in a circuit file. */
import { moduleKeys } from './schema-module.js';
import { amount, id, named, numberedName, terminal, text, weakSpot, yesNo } from './schema-words.js';

const common = {
  name: {
    ...text(80),
    description: 'the plain name of the part, like left stop lamp, at most 80 characters',
  },
  place: { ...numberedName, description: 'one of the names under places' },
  price: {
    type: ['number', 'string'],
    pattern: '^\\d{1,6}([.,]\\d{1,2})?$',
    description: 'the price of a new item as a plain number, like 12.50',
  },
  'never-probe': yesNo,
  'weak spot': weakSpot,
};

/** Keys of the parts that the catalogue knows. */
const listed = {
  catalogue: {
    type: ['string', 'integer'],
    pattern: '^[A-Za-z0-9][A-Za-z0-9 ./_-]{0,39}$',
    description:
      'its name in the part catalogue, as printed on it, like P21W (knowngood catalogue lists them)',
  },
};

function part(type: string, own: Readonly<Record<string, object>>, required: readonly string[] = []) {
  return {
    type: 'object',
    description: `a ${type}`,
    required: ['type', 'place', ...required],
    properties: { type: { const: type }, ...common, ...own },
    additionalProperties: false,
  };
}

const between = {
  type: 'array',
  minItems: 2,
  maxItems: 2,
  items: terminal,
  description: 'two terminals like [30, 15]',
};
const control = { ...numberedName, description: 'one of the names under controls' };
const positions = (meaning: string) => ({
  type: ['array', 'string', 'integer'],
  minItems: 1,
  maxItems: 24,
  pattern: named.pattern,
  items: numberedName,
  description: `the positions of the control in which ${meaning}, like [on]`,
});
const drawn = { amps: amount('5 A'), watts: amount('60 W'), volts: amount('12 V') };
const positionOhms = {
  type: 'object',
  minProperties: 2,
  maxProperties: 24,
  propertyNames: named,
  additionalProperties: amount('100 ohm'),
  description: 'the ohms in each position of the control, like {empty: 250 ohm, half: 100 ohm, full: 20 ohm}',
};
const sensor = (type: string) =>
  part(type, { control, ohms: positionOhms, tolerance: amount('10 %') }, ['control', 'ohms']);
/** Terminals of which a part may have more or fewer. */
const someOf = (names: readonly (string | number)[], example: string) => ({
  type: 'array',
  minItems: 1,
  maxItems: names.length,
  uniqueItems: true,
  items: {
    type: ['string', 'integer'],
    enum: names.flatMap((name) => (typeof name === 'number' ? [name, String(name)] : [name])),
    description: `one of ${names.join(', ')}`,
  },
  description: `the terminals it has, like ${example}`,
});

export const partSchemas = {
  battery: part('battery', { ...listed, volts: amount('12.6 V'), ohms: amount('0.01 ohm') }),
  alternator: part(
    'alternator',
    { amps: amount('70 A'), volts: amount('14.2 V'), terminals: someOf(['B+', 31, 'D+'], '[B+, 31, D+]') },
    ['amps'],
  ),
  fuse: part('fuse', { rating: amount('10 A') }, ['rating']),
  'fusible link': part('fusible link', { rating: amount('60 A') }, ['rating']),
  breaker: part(
    'breaker',
    {
      rating: amount('20 A'),
      reset: { enum: ['automatic', 'manual'], description: 'automatic (cools and closes again) or manual' },
    },
    ['rating'],
  ),
  switch: part(
    'switch',
    {
      control,
      contacts: {
        type: 'array',
        minItems: 1,
        maxItems: 24,
        description: 'a list of contacts like [{between: [30, 15], closed: [on]}]',
        items: {
          type: 'object',
          description: 'a contact like {between: [30, 15], closed: [on]}',
          required: ['between', 'closed'],
          additionalProperties: false,
          properties: { between, closed: positions('the contact is closed') },
        },
      },
    },
    ['control', 'contacts'],
  ),
  relay: part('relay', {
    ...listed,
    coil: amount('85 ohm'),
    'pull-in': amount('8 V'),
    'drop-out': amount('1.2 V'),
    'change-over': yesNo,
    contact: amount('0.001 ohm'),
  }),
  flasher: part('flasher', { terminals: someOf([49, '49a', 31], '[49, 49a, 31]') }),
  lamp: part('lamp', {
    ...listed,
    watts: amount('21 W'),
    filaments: {
      type: 'object',
      minProperties: 2,
      maxProperties: 4,
      propertyNames: { ...terminal, type: 'string' },
      additionalProperties: amount('21 W'),
      description: 'the filaments by terminal, like {54: 21 W, 58: 5 W}',
    },
    volts: amount('12 V'),
  }),
  'LED lamp': part('LED lamp', { watts: amount('3 W'), volts: amount('12 V') }, ['watts']),
  horn: part('horn', { ...listed, ...drawn }),
  buzzer: part('buzzer', { ...listed, ...drawn }),
  motor: part('motor', {
    ...listed,
    ...drawn,
    stall: amount('25 A'),
    drives: { ...named, description: 'what it moves: fan, pump, starter, wiper …' },
  }),
  heater: part('heater', { ...listed, ...drawn }),
  solenoid: part('solenoid', { ...listed, ...drawn, ohms: amount('12 ohm') }),
  load: part('load', drawn),
  resistor: part('resistor', { ohms: amount('2.2 ohm'), tolerance: amount('5 %') }, ['ohms']),
  'resistor pack': part(
    'resistor pack',
    {
      resistors: {
        type: 'array',
        minItems: 1,
        maxItems: 24,
        description: 'a list of resistors like [{between: [1, 2], ohms: 0.8 ohm}]',
        items: {
          type: 'object',
          description: 'a resistor like {between: [1, 2], ohms: 0.8 ohm}',
          required: ['between', 'ohms'],
          additionalProperties: false,
          properties: { between, ohms: amount('0.8 ohm') },
        },
      },
      tolerance: amount('5 %'),
    },
    ['resistors'],
  ),
  sender: sensor('sender'),
  thermistor: sensor('thermistor'),
  diode: part('diode', { forward: amount('0.7 V') }),
  module: part('module', moduleKeys, ['supply', 'ground']),
  ground: part('ground', {
    frame: { ...id, description: 'the metal it is bolted to when that is not the body, like trailer' },
  }),
  coupling: part(
    'coupling',
    {
      frame: { ...id, description: 'the metal it joins to the body: the frame of one or more grounds' },
      control,
      closed: positions('the metal touches'),
    },
    ['frame', 'control', 'closed'],
  ),
  splice: part('splice', {}),
  connector: part('connector', {
    pins: {
      type: ['array', 'integer', 'string'],
      minItems: 1,
      maxItems: 128,
      minimum: 1,
      maximum: 128,
      pattern: '^([1-9]|[1-9][0-9]|1[01][0-9]|12[0-8])$',
      items: terminal,
      description: 'how many pins, or a list of them like [1, 2]',
    },
    standard: {
      enum: ['ISO 1724', 'ISO 11446', 'ISO 1185'],
      description: 'the standard that numbers the pins',
    },
  }),
};
