/** The published shape of a session written by hand; `knowngood schema session` prints it. */
import { CONCERN_SHAPE, EVENT_SHAPE } from '../session/event-schema.js';

const words = (most: number, description: string) => ({
  type: ['string', 'number'],
  minLength: 1,
  maxLength: most,
  description,
});
const names = (description: string, example: string) => ({
  type: 'array',
  maxItems: 200,
  description: `a list of ${description}, like [${example}]`,
  items: { ...words(120, `one of the ${description}, like ${example}`), type: 'string' },
});
const yesNo = {
  type: ['boolean', 'string'],
  enum: [true, false, 'true', 'false'],
  description: 'true or false',
};

export const SESSION_SCHEMA = {
  $schema: 'https://json-schema.org/draft/2020-12/schema',
  title: 'knowngood session',
  type: 'object',
  additionalProperties: false,
  required: ['session', 'title', 'circuit', 'steps'],
  properties: {
    session: { enum: [1, '1'], description: '1, the version of this format' },
    title: words(120, 'a short title of the session'),
    source: words(2000, 'where the case comes from: a book and page, or “demo”'),
    circuit: { ...words(400, 'the circuit file, seen from the folder of this file'), type: 'string' },
    concern: CONCERN_SHAPE,
    steps: {
      type: 'array',
      maxItems: 5000,
      description: 'the steps in the order they happened, each on a line like - volts X3.1h 11.4',
      items: {
        type: ['string', 'object'],
        minLength: 1,
        maxLength: 2000,
        description: 'a line as it would be typed, like volts X3.1h 11.4, or an event',
        if: { type: 'object' },
        then: EVENT_SHAPE,
      },
    },
    expect: {
      type: 'object',
      additionalProperties: false,
      description: 'what must come out, like {top: [GP2], fits: true}',
      properties: {
        suspects: names('faults or parts that must still be suspects', 'GP2'),
        top: names('parts that lead the suspects', 'GP2'),
        'not on its own': names('parts that no single fault explains', 'F7'),
        'not blamed': names('parts the report must not call bad', 'S2'),
        cleared: names('parts that are cleared', 'F7'),
        fits: yesNo,
        verified: yesNo,
        severity: {
          type: 'object',
          maxProperties: 50,
          description:
            'faults with the severities their fitted range must meet, like {GP2 resistance: 2 to 5 ohm}',
          additionalProperties: {
            ...words(60, 'a range like 2 to 5 ohm, 20 ohm to open, or open'),
            type: 'string',
          },
        },
        open: {
          enum: ['no fault now', 'a reading is wrong', 'the drawing differs'],
          description:
            'the open explanation that weighs most: no fault now, a reading is wrong or the drawing differs',
        },
        course: {
          enum: ['steady', 'comes and goes', 'either'],
          description: 'how the leading suspect fits: steady, comes and goes or either',
        },
        cause: names('parts that the report names as the cause, these and no others', 'X3'),
        certainty: {
          enum: ['confirmed', 'only one left', 'most likely', 'not found'],
          description: 'how sure the report is of the cause',
        },
        next: { ...words(200, 'the test to be suggested next, like volts X3.1h'), type: 'string' },
        drawing: {
          type: 'string',
          pattern: '^[0-9A-Fa-f]{8,64}$',
          description: 'the SHA-256 of the circuit file, or its first digits, as replay --update writes it',
        },
      },
    },
  },
} as const;
