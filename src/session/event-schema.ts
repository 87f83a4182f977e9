/**
 * The published shape of an event: JSON Schema, draft 2020-12, closed. Journals hold events in this form; a session written
 * by hand may hold one wherever it holds a typed line. Numbers may stand as text there: the digits of a reading count.
 *
 * The descriptions are also the words of the error messages.
 */

export interface Shape {
  readonly [keyword: string]: unknown;
}

/** Words without a limit of their own: what somebody has typed must never be too long to be read again. */
const text = (description: string, least = 1): Shape => ({
  type: ['string', 'number'],
  minLength: least,
  description,
});
const name = (description: string): Shape => ({ type: 'string', minLength: 1, maxLength: 60, description });
const oneOf = (...values: readonly string[]): Shape => ({
  type: 'string',
  enum: values,
  description: `one of: ${values.join(', ')}`,
});
const number = (description: string): Shape => ({
  type: ['integer', 'string'],
  pattern: '^[1-9][0-9]{0,8}$',
  description,
});
const amount = (description: string): Shape => ({
  type: ['number', 'string'],
  pattern: '^[0-9]{1,7}([.,][0-9]{1,3})?$',
  description,
});
const exact: Shape = { type: ['number', 'string'], maxLength: 40, description: 'a plain number' };
const digits: Shape = { type: ['number', 'string', 'object'], minLength: 1, maxLength: 40 };

/** A meter value: as typed (`11.4`), or value and step apart as in journals. */
const typed = (description: string): Shape => ({
  ...digits,
  description,
  required: ['value', 'step'],
  additionalProperties: false,
  properties: { value: exact, step: exact },
});

const when: Shape = {
  type: 'array',
  maxItems: 100,
  description: 'pairs of a control and its position, like [[gear, reverse]]',
  items: {
    type: 'array',
    minItems: 2,
    maxItems: 2,
    items: name('a control and its position, like [gear, reverse]'),
    description: 'a control and its position, like [gear, reverse]',
  },
};
const red = name('the point the red probe is on, like X3.1h');
const black = name('the point the black probe is on, like bat-');
const at = name('a part, wire or point, like F7 or X3.1h');
const before = number('the number of the event it was observed before');
const symptom = oneOf('present', 'absent');

/** A closed group; keys that end in ? may be left out. */
function group(key: string, description: string, properties: Readonly<Record<string, Shape>>): Shape {
  const entries = Object.entries(properties);
  return {
    type: 'object',
    description,
    additionalProperties: false,
    required: entries.map(([name]) => name).filter((name) => !name.endsWith('?')),
    properties: {
      [key]: {},
      ...Object.fromEntries(entries.map(([name, shape]) => [name.replace('?', ''), shape])),
    },
  };
}

/** A group whose other keys depend on one of them. */
function choice(key: string, description: string, kinds: Readonly<Record<string, Shape>>): Shape {
  const values = Object.keys(kinds);
  return {
    type: 'object',
    description,
    required: [key],
    properties: { [key]: { enum: values, description: `one of: ${values.join(', ')}` } },
    allOf: values.map((value) => ({
      if: { type: 'object', required: [key], properties: { [key]: { const: value } } },
      then: kinds[value],
    })),
  };
}

const volts = typed('a reading such as 11.4, with the digits the meter showed');
const ohms = typed('a reading such as 0.3 or 1k2, or OL');
const amps = typed('a reading such as 1.75, with the digits the meter showed');

const READING = choice('kind', 'a reading like {kind: volts, red: X3.1h, black: bat-, value: 11.4}', {
  volts: group('kind', 'a reading in volts', {
    red,
    black,
    value: volts,
    'mode?': oneOf('low impedance', 'loaded'),
  }),
  ohms: group('kind', 'a reading in ohms', { red, black, value: ohms }),
  continuity: group('kind', 'an answer of the buzzer', { red, black, value: oneOf('beep', 'no beep') }),
  amps: group('kind', 'a reading in amperes', {
    at: name('the wire, terminal or connector pin the meter is in line with'),
    value: amps,
  }),
  clamp: group('kind', 'a reading of a clamp meter in amperes', {
    at: name('the wire, terminal or connector pin the clamp is around'),
    value: amps,
  }),
  'fuse lamp': group('kind', 'what the test lamp in place of a fuse does', {
    part: name('the fuse, like F7'),
    value: oneOf('lit', 'dim', 'off'),
  }),
  scan: group('kind', 'what a module reports of one of its inputs', {
    module: name('a module, like A1'),
    input: name('its input, like 3'),
    value: typed('a word of the circuit file, {value: 4.9, step: 0.1} in volts, or no answer'),
  }),
  load: group('kind', 'what a load does', {
    load: name('a load, like H1 or H1.54'),
    value: oneOf(
      ...['lit', 'dim', 'off', 'flickers', 'runs', 'slow', 'stopped'],
      ...['sounds', 'weak', 'silent', 'clicks', 'chatters', 'flashes', 'flashes fast'],
      ...['hot', 'lukewarm', 'cold', 'works', 'dead'],
    ),
  }),
  'test lamp': group('kind', 'what a test lamp does', {
    red,
    black,
    value: oneOf('lit', 'dim', 'off'),
    lamp: oneOf('filament', 'LED'),
  }),
  look: group('kind', 'how something looks', {
    at,
    value: oneOf('good', 'blown', 'broken', 'burnt', 'corroded', 'loose', 'wet', 'wrong part'),
  }),
});

const connector = group('do', 'unplug or plug, with a connector', {
  connector: name('a connector, like X3'),
});
const item = group('do', 'something done to the item of a part', { part: name('a part, like F7') });
const swap = group('do', 'two parts that change places', {
  parts: {
    type: 'array',
    minItems: 2,
    maxItems: 2,
    items: name('a part, like H1'),
    description: 'two parts, like [H1, H2]',
  },
});
const bridge = group('do', 'a jumper between two points', {
  between: {
    type: 'array',
    minItems: 2,
    maxItems: 2,
    items: name('a point, like S1.1'),
    description: 'two points, like [S1.1, S1.2]',
  },
});
const hands = group('do', 'work on a part, wire or point', { at });

const ACTION = choice('do', 'an action like {do: unplug, connector: X3}', {
  operate: group('do', 'a control and its position', {
    control: name('a control, like gear'),
    position: name('one of the positions of the control'),
  }),
  engine: group('do', 'engine, off or running', { state: oneOf('off', 'running') }),
  unplug: connector,
  plug: connector,
  'take out': item,
  refit: item,
  'fit new': item,
  'fit known-good': item,
  swap,
  'lamp in place': item,
  'remove lamp': item,
  reset: item,
  wait: group('do', 'a wait with everything off', { minutes: amount('minutes as a plain number, like 30') }),
  jumper: bridge,
  'remove jumper': bridge,
  clean: hands,
  tighten: hands,
  reseat: hands,
  wiggle: hands,
  repair: group('do', 'a repair', {
    at,
    how: text('what was done, in words'),
    'minutes?': amount('minutes as a plain number, like 15'),
    'price?': amount('a price as a plain number, like 12.50'),
  }),
});

/** Answers for the head of the report; also the `concern` of a session written by hand. */
const concern = (least: number): Shape => ({
  type: 'object',
  additionalProperties: false,
  description: 'entries such as complaint, vehicle and technician',
  properties: {
    complaint: text('what the customer says', least),
    vehicle: text('the vehicle, in words', least),
    odometer: text('the reading of the odometer, like 120000 km', least),
    technician: text('who works on it', least),
    customer: text('whose vehicle it is', least),
    meter: text('the instrument used', least),
    history: {
      type: 'array',
      maxItems: 50,
      items: text('an answer in words', least),
      description: 'a list of answers: recent work, tow bar, water, collision, sudden or gradual',
    },
  },
});

/** The `concern` of a session written by hand: an answer that is begun must be given. */
export const CONCERN_SHAPE = concern(1);

const MODES = oneOf('volts', 'ohms', 'test lamp', 'amps', 'clamp', 'scan');

const drawing: Shape = {
  type: 'object',
  additionalProperties: false,
  required: ['id', 'hash', 'file'],
  description: 'id, hash and file of the circuit',
  properties: {
    id: text('the id of the circuit'),
    hash: { type: 'string', description: 'the SHA-256 of the circuit file' },
    file: { type: 'string', description: 'the circuit file' },
  },
};

export const EVENT_SHAPE = choice('type', 'an event like {type: noted, text: tow bar fitted last week}', {
  opened: group('type', 'the opening of the session', {
    format: { enum: [1, '1'], description: '1' },
    program: text('the program and its version'),
    circuit: drawing,
  }),
  concern: group('type', 'the concern', { concern: concern(0) }),
  did: group('type', 'an action', { action: ACTION, 'before?': before }),
  found: group('type', 'a finding', {
    reading: READING,
    'battery?': typed('the volts at the battery posts, such as 12.4'),
    'symptom?': symptom,
    'evidence?': oneOf('measured', 'seen', 'told'),
    'when?': when,
    'before?': before,
  }),
  symptom: group('type', 'whether the complaint is there', { symptom }),
  proved: group('type', 'a meter shown to work', { mode: MODES }),
  assumed: group('type', 'something taken as good', { part: at }),
  noted: group('type', 'a note', { text: text('the note in words') }),
  redrawn: group('type', 'a corrected drawing', {
    circuit: drawing,
    words: text('what was corrected, in words', 0),
  }),
  skipped: group('type', 'a test that was not done', {
    test: text('the line of the test'),
    why: oneOf('cannot tell', 'cannot reach', 'no tool'),
  }),
  undone: group('type', 'an undo', { number: number('the number of the event that counts no more') }),
  concluded: group('type', 'the cause', {
    at,
    words: text('what the fault was, in words', 0),
  }),
  paused: group('type', 'a pause', {}),
  closed: group('type', 'the close of the session', {}),
  exercise: group('type', 'an attempt at an exercise', {
    id: name('the id of the exercise'),
    hash: { type: 'string', description: 'the SHA-256 of the exercise' },
    attempt: number('the number of the attempt'),
    file: { type: 'string', description: 'the exercise file' },
    'student?': text('whose attempt it is'),
    'drawn?': {
      type: 'object',
      additionalProperties: false,
      required: ['seed', 'difficulty'],
      description: 'seed and difficulty of a drawn exercise',
      properties: { seed: exact, difficulty: exact },
    },
  }),
  predicted: group('type', 'a prediction', { words: text('what the next reading is expected to be') }),
  claimed: group('type', 'a claim that something is cleared', { at, of: text('a kind of fault', 0) }),
  hinted: group('type', 'a hint that was asked for', { number: number('the number of the hint') }),
  attempted: group('type', 'a reading that was not to be had', {
    reading: READING,
    why: oneOf('live line', 'never to be probed', 'airbag line', 'module output'),
  }),
});
