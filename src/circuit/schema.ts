/**
 * The published shape of a circuit file: JSON Schema, draft 2020-12, closed. `knowngood schema circuit` prints it, and an
 * editor that knows JSON Schema can offer its keys. What a shape cannot say (units, names, wiring) is in the rules.
 *
 * The program reads every scalar as text; `integer`, `number` and `boolean` are listed where an editor would see them.
 */

import { costsSchema } from './schema-costs.js';
import { partSchemas } from './schema-parts.js';
import { amount, id, named, numberedName, point, text, weakSpot, yesNo } from './schema-words.js';

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
        oneOf: Object.keys(partSchemas).map((type) => ({ $ref: `#/$defs/${encodeURIComponent(type)}` })),
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
          'weak spot': weakSpot,
        },
      },
    },
    costs: costsSchema,
    'never-probe': {
      type: 'array',
      maxItems: 2000,
      items: { ...point, description: 'a part, a point or a wire, like X5, X5.2 or W7' },
      description: 'a list of parts, points and wires nobody may probe',
    },
  },
  $defs: partSchemas,
} as const;
