/** The shape of costs, in a circuit file and in a file of their own. */
import { STEP_COSTS, TEST_COSTS } from './costs.js';
import { amount } from './schema-words.js';

const labour = {
  type: ['string', 'number'],
  minLength: 1,
  maxLength: 30,
  description: 'what an hour of work costs in your money, a plain number like 60',
  examples: ['60'],
};

const minutes = Object.fromEntries(
  Object.entries({ ...TEST_COSTS, ...STEP_COSTS }).map(([key, what]) => [
    key,
    { ...amount('2 min'), description: `the minutes of ${what}, like 2 min` },
  ]),
);

export const costsSchema = {
  type: 'object',
  additionalProperties: false,
  description: 'what steps cost here, like probe: 2 min; what is left out costs the usual',
  properties: { ...minutes, labour },
};

/** A person's own costs, for any circuit. `knowngood schema costs` prints it. */
export const COSTS_SCHEMA = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  $id: 'urn:knowngood:costs:1',
  title: 'knowngood costs',
  ...costsSchema,
};
