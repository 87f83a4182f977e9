/**
 * The published shape of a circuit file: JSON Schema, draft 2020-12, closed. `knowngood schema circuit` prints it, and an
 * editor that knows JSON Schema can offer its keys. What a shape cannot say (units, names, wiring) is in the rules.
 *
 * The program reads every scalar as text; `integer`, `number` and `boolean` are listed where an editor would see them.
 */

const yesNo = {
  type: ['boolean', 'string'],
  enum: [true, false, 'true', 'false'],
  description: 'true or false',
};
const named = {
  type: 'string',
  pattern: '^[\\p{L}\\p{N}][\\p{L}\\p{N} ._/()+-]{0,39}$',
  description: 'a short name: letters, digits, spaces and . _ / ( ) + -, at most 40 of them',
};
/** Names that look like a number may also be typed as one. */
const numberedName = { ...named, type: ['string', 'integer'] };
const id = {
  type: 'string',
  pattern: '^[A-Za-z][A-Za-z0-9_-]{0,15}$',
  description: 'a short id such as F4 or X3: a letter, then letters, digits, - or _ (16 at most)',
};
const terminal = {
  type: ['string', 'integer'],
  // Not ending in i: F4.2i means the item side of F4.2.
  pattern: '^[A-Za-z0-9]{0,7}[A-HJ-Za-hj-z0-9+-]$',
  description: 'a terminal or pin such as 30, 87a or L: letters and digits, 8 at most, not ending in i',
};
const point = {
  type: 'string',
  pattern: '^[A-Za-z0-9_.+-]{1,26}$',
  description: 'a point such as F4.2, X3.1h (harness side) or GP1',
};
const amount = (example: string) => ({
  type: 'string',
  minLength: 1,
  maxLength: 30,
  description: `a number with its unit, like ${example}`,
  examples: [example],
});
/** An escape in quotes could otherwise carry a terminal sequence into a screen or a report. */
const text = (most: number) => ({
  type: ['string', 'number'],
  minLength: 1,
  maxLength: most,
  pattern: '^[^\\p{Cc}]*$',
  description: `text of at most ${most} characters without control characters`,
});

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

const parts = {
  battery: part('battery', { volts: amount('12.6 V'), ohms: amount('0.01 ohm') }),
  fuse: part('fuse', { rating: amount('10 A') }, ['rating']),
  switch: part(
    'switch',
    {
      control: { ...numberedName, description: 'one of the names under controls' },
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
          properties: {
            between: {
              type: 'array',
              minItems: 2,
              maxItems: 2,
              items: terminal,
              description: 'two terminals like [30, 15]',
            },
            closed: {
              type: ['array', 'string', 'integer'],
              minItems: 1,
              maxItems: 24,
              pattern: named.pattern,
              items: numberedName,
              description: 'the positions of the control in which the contact is closed, like [on]',
            },
          },
        },
      },
    },
    ['control', 'contacts'],
  ),
  relay: part('relay', {
    coil: amount('85 ohm'),
    'pull-in': amount('8 V'),
    'drop-out': amount('1.2 V'),
    'change-over': yesNo,
  }),
  lamp: part('lamp', {
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
  horn: part('horn', { amps: amount('5 A'), watts: amount('60 W'), volts: amount('12 V') }),
  motor: part('motor', {
    amps: amount('5 A'),
    watts: amount('60 W'),
    volts: amount('12 V'),
    drives: { ...named, description: 'what it moves: fan, pump, starter, wiper …' },
  }),
  resistor: part('resistor', { ohms: amount('2.2 ohm'), tolerance: amount('5 %') }, ['ohms']),
  diode: part('diode', { forward: amount('0.7 V') }),
  ground: part('ground', {}),
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

export const CIRCUIT_SCHEMA = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:knowngood:circuit:1',
  title: 'knowngood circuit',
  description: 'a circuit: controls, places, parts and the wires between them',
  type: 'object',
  required: ['circuit', 'title', 'nominal', 'places', 'parts', 'wires'],
  additionalProperties: false,
  properties: {
    circuit: {
      type: 'string',
      pattern: '^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$',
      description: 'the short name of the circuit, like stop-tail: letters, digits, - and _, at most 40',
    },
    title: text(120),
    about: { ...text(2000), pattern: '^(?:[^\\p{Cc}]|\\n)*$' },
    nominal: { ...amount('12 V'), description: 'the system voltage, like 12 V' },
    controls: {
      type: 'object',
      maxProperties: 64,
      propertyNames: named,
      description: 'everything a person operates, like pedal: [up, down]',
      additionalProperties: {
        type: ['array', 'object'],
        description: 'a list of positions, the one at rest first, like [off, on]',
        minItems: 2,
        maxItems: 24,
        items: numberedName,
        required: ['positions'],
        additionalProperties: false,
        properties: {
          positions: {
            type: 'array',
            minItems: 2,
            maxItems: 24,
            items: numberedName,
            description: 'a list of positions, the one at rest first, like [off, on]',
          },
          risk: {
            enum: ['motion', 'cranks', 'fuel', 'fan'],
            description: 'what else operating it may set going: motion, cranks, fuel or fan',
          },
          helper: yesNo,
        },
      },
    },
    places: {
      type: 'object',
      maxProperties: 200,
      propertyNames: named,
      description: 'where things are and how long it takes to get there, like fuse box: 2 min',
      additionalProperties: {
        type: ['string', 'object'],
        minLength: 1,
        description: 'the time to get there, like 8 min or {open: 8 min, hazard: hot}',
        required: ['open'],
        additionalProperties: false,
        properties: {
          open: amount('8 min'),
          hazard: {
            enum: ['airbag', 'fan', 'roadside', 'battery', 'hot'],
            description: 'what can hurt you there: airbag, fan, roadside, battery or hot',
          },
        },
      },
    },
    parts: {
      type: 'object',
      minProperties: 1,
      maxProperties: 2000,
      propertyNames: id,
      description: 'the parts by id, like F4: {type: fuse, rating: 10 A, place: fuse box}',
      additionalProperties: {
        type: 'object',
        description: 'a part like {type: fuse, rating: 10 A, place: fuse box}',
        required: ['type'],
        discriminator: { propertyName: 'type' },
        oneOf: Object.keys(parts).map((type) => ({ $ref: `#/$defs/${type}` })),
      },
    },
    wires: {
      type: 'array',
      maxItems: 5000,
      description: 'the wires, each on a line like - {from: F4.2, to: S1.1, size: 1 mm2, length: 2 m}',
      items: {
        type: 'object',
        description: 'a wire like {from: F4.2, to: S1.1, size: 1 mm2, length: 2 m}',
        required: ['from', 'to', 'size', 'length'],
        additionalProperties: false,
        properties: {
          from: point,
          to: point,
          size: { ...amount('1.5 mm2'), description: 'the size of the conductor, like 1.5 mm2 or AWG 16' },
          length: amount('2 m'),
          colour: {
            type: 'string',
            pattern: '^(?:(?:BK|BN|RD|OG|YE|GN|BU|VT|GY|WH|PK|GD|TQ|SR)){1,3}$',
            description:
              'IEC 60757 letters, one to three colours joined like RDBU: BK BN RD OG YE GN BU VT GY WH PK GD TQ SR',
          },
          bundle: numberedName,
          id,
          'never-probe': yesNo,
        },
      },
    },
    'never-probe': {
      type: 'array',
      maxItems: 2000,
      items: { ...point, description: 'a part, a point or a wire, like X5, X5.2 or W7' },
      description: 'a list of parts, points and wires nobody may probe',
    },
  },
  $defs: parts,
} as const;
