/** The published shape of an exercise file; `knowngood schema exercise` prints it. */
import { costsSchema } from '../circuit/schema-costs.js';
import { HELP, MARKS, TOOLS } from '../exercise/exercise.js';

const words = (most: number, description: string) => ({
  type: ['string', 'number'],
  minLength: 1,
  maxLength: most,
  pattern: '^(?:[^\\p{Cc}]|\\n)*$',
  description,
});
const time = (description: string) => ({ type: 'string', minLength: 1, maxLength: 30, description });
const money = (description: string) => ({
  type: ['string', 'number'],
  minLength: 1,
  maxLength: 30,
  description,
});
const whole = (description: string, pattern = '^[0-9]{1,10}$') => ({
  type: ['integer', 'string'],
  pattern,
  description,
});
const group = (
  description: string,
  properties: Readonly<Record<string, unknown>>,
  required: readonly string[],
) => ({
  type: 'object',
  additionalProperties: false,
  description,
  required,
  properties,
});
const oneOf = (values: readonly string[]) => ({ enum: values, description: `one of: ${values.join(', ')}` });

const SEAL = group(
  'what exercise seal has written; leave it as it is',
  Object.fromEntries(
    ['salt', 'nonce', 'tag', 'text', 'proof'].map((name) => [
      name,
      { type: 'string', minLength: 1, maxLength: 200_000, description: 'what exercise seal has written' },
    ]),
  ),
  ['salt', 'nonce', 'tag', 'text', 'proof'],
);

export const EXERCISE_SCHEMA = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:knowngood:exercise:1',
  title: 'knowngood exercise',
  description: 'an exercise: what the student is told, what is hidden, what may be used, how it is marked',
  type: 'object',
  additionalProperties: false,
  required: ['exercise', 'id', 'title', 'circuit'],
  properties: {
    exercise: { enum: [1, '1'], description: '1, the version of this format' },
    id: {
      type: 'string',
      pattern: '^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$',
      description:
        'the short name of the exercise, like dead-stop-lamp: letters, digits, - and _, at most 40',
    },
    title: words(120, 'a short title that gives nothing away: the seal does not hide it, nor the id'),
    goal: words(2000, 'what it is to teach; the student reads it at the end'),
    circuit: { ...words(400, 'the circuit file, seen from the folder of this file'), type: 'string' },
    concern: words(2000, "the concern in the customer's words"),
    complaint: {
      type: 'array',
      minItems: 1,
      maxItems: 50,
      description: 'what fails and what works, in lines like - fails H1 when pedal down',
      items: { ...words(400, 'a line like fails H1 when pedal down'), type: 'string' },
    },
    faults: {
      type: 'array',
      minItems: 1,
      maxItems: 3,
      description: 'the hidden faults, like - {fault: X3.1 resistance, severity: 8 ohm}',
      items: group(
        'a hidden fault, like {fault: X3.1 resistance, severity: 8 ohm}',
        {
          fault: {
            ...words(120, 'the name of a fault of the circuit, like X3.1 resistance'),
            type: 'string',
          },
          severity: words(40, 'how severe it is, like open, 8 ohm, 11 V or 5 W'),
          'comes and goes': {
            type: ['boolean', 'string'],
            enum: [true, false, 'true', 'false'],
            description: 'true or false',
          },
        },
        ['fault'],
      ),
    },
    draw: group(
      'a fault drawn by the program, like {seed: 7, difficulty: 3}',
      { seed: whole('a whole number'), difficulty: whole('a number from 1 to 5', '^[1-5]$') },
      ['seed', 'difficulty'],
    ),
    seed: whole('a whole number: part values and the error of the meter come from it'),
    tools: {
      type: 'array',
      maxItems: TOOLS.length,
      description: `a list of tools: ${TOOLS.join(', ')}; left out, all of them`,
      items: oneOf(TOOLS),
    },
    places: {
      type: 'object',
      maxProperties: 200,
      description: 'minutes to open places where they differ from the circuit file, like {loom: 20 min}',
      additionalProperties: time('the minutes to open it, like 5 min'),
    },
    costs: costsSchema,
    budget: group(
      'what it may take, like {minutes: 30 min, money: 20}',
      { minutes: time('minutes, like 30 min'), money: money('money as a plain number, like 20') },
      [],
    ),
    help: oneOf(HELP),
    hints: {
      type: 'array',
      maxItems: 20,
      description: 'hints in order, like - {text: look at the ground, minutes: 3 min}',
      items: group(
        'a hint, like {text: look at the ground, minutes: 3 min}',
        {
          text: words(1000, 'the hint'),
          minutes: time('the minutes it costs, like 3 min'),
          money: money('the money it costs, like 2'),
        },
        [],
      ),
    },
    marking: group(
      'marks for each item, 100 together',
      Object.fromEntries(
        Object.keys(MARKS).map((item) => [item, whole('a whole number from 0 to 100', '^(100|[0-9]{1,2})$')]),
      ),
      [],
    ),
    sealed: SEAL,
  },
} as const;
