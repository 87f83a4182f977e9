/** Sessions written by hand: what they stand for, and what is said about mistakes in them. */
import { readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeOf, printDiagnostics } from '../../src/circuit/print-diagnostic.js';
import { isEvent } from '../../src/files/event-check.js';
import { BY_HAND, parseSession, readSessionFile, type LoadedSession } from '../../src/files/session-file.js';
import { SESSION_SCHEMA } from '../../src/files/session-schema.js';
import { BROKEN } from './broken-cases.js';
import { typed } from './lamps.js';

const folder = fileURLToPath(new URL('broken/', import.meta.url));
/** Where the texts below stand; only the circuit is looked for from there. */
const path = fileURLToPath(new URL('written.yaml', import.meta.url));

const TEXT = `session: 1
title: One lamp out
source: demo
circuit: ../../circuits/reversing-lamps.yaml
concern: {complaint: left lamp dark, history: [after rain]}
steps:
  - fails H1 when key on, gear reverse
  - works H2 when key on, gear reverse
  - key on
  - volts X3.1h 12.10/12.4
  - "skip ohms X3.2h body: cannot reach"
  - note 5 minutes # a remark
  - undo
expect: {suspects: [x3, GP2 resistance], not on its own: [F7], fits: true, verified: false}
`;

async function load(text: string): Promise<LoadedSession> {
  const result = await parseSession(text, path);
  if ('problems' in result)
    throw new Error(printDiagnostics(text, 'written.yaml', result.problems).join('\n'));
  return result;
}

describe('a broken session file', () => {
  test.each(BROKEN)(
    'when it is $file then every mistake is told with its place and its mend',
    async ({ file, says }) => {
      const result = await readSessionFile(folder + file);
      expect('problems' in result).toBe(true);
      if (!('problems' in result)) return;
      expect(
        result.problems.map(({ range, severity, message, mend }) => {
          const { line, column } = placeOf(result.source, range.start);
          return `${line}:${column} ${severity}: ${message}. Mend: ${mend}`;
        }),
      ).toEqual(says);
    },
  );

  test('when a file is added to broken/ then it must be in the table', () => {
    expect(readdirSync(folder).sort()).toEqual(BROKEN.map(({ file }) => file));
  });

  test('when there is no such file then that is said', async () => {
    expect(await readSessionFile(`${folder}nowhere.yaml`)).toMatchObject({
      problems: [{ code: 'cannot-read', message: 'there is no such file' }],
    });
  });
});

test('when the file is sound then its steps are the events that the same lines stand for when typed', async () => {
  const session = await load(TEXT);
  expect(session).toMatchObject({
    title: 'One lamp out',
    source: 'demo',
    circuit: { id: 'reversing-lamps' },
  });
  const [opened, concern, ...steps] = session.recorded;
  expect(opened!.event).toMatchObject({
    type: 'opened',
    program: BY_HAND,
    circuit: { id: 'reversing-lamps', file: '../../circuits/reversing-lamps.yaml' },
  });
  expect(concern!.event).toEqual({
    type: 'concern',
    concern: { complaint: 'left lamp dark', history: ['after rain'] },
  });
  const lines = [
    'fails H1 when key on, gear reverse',
    'works H2 when key on, gear reverse',
    'key on',
    'volts X3.1h 12.10/12.4',
    'skip ohms X3.2h body: cannot reach',
    'note 5 minutes',
  ];
  expect(steps.slice(0, -1).map(({ event }) => event)).toEqual(typed(...lines).map(({ event }) => event));
  expect(steps.at(-1)!.event).toEqual({ type: 'undone', number: 8 });
  expect(session.recorded.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
});

test('when expectations name things then they come in the spelling of the circuit', async () => {
  expect((await load(TEXT)).expect).toEqual({
    suspects: ['X3', 'GP2 resistance'],
    notOnItsOwn: ['F7'],
    fits: true,
    verified: false,
  });
});

test('when only the line ends differ then the hash is the same', async () => {
  const { hash } = await load(TEXT);
  expect((await load(TEXT.replaceAll('\n', '\r\n'))).hash).toBe(hash);
  expect((await load(TEXT.replace('12.10', '12.1'))).hash).not.toBe(hash);
});

describe('when a step is an event then it is the event of the line', () => {
  test.each([
    [
      'volts F7.2 12.10/12.4',
      '{type: found, reading: {kind: volts, red: F7.2, black: bat-, value: 12.10}, battery: 12.4}',
    ],
    [
      'volts F7.2 12.1',
      '{type: found, reading: {kind: volts, red: F7.2, black: bat-, value: {value: 12.1, step: 0.1}}}',
    ],
    ['ohms X3.2h body OL', '{type: found, reading: {kind: ohms, red: X3.2h, black: body, value: OL}}'],
    [
      'H1 off when gear reverse',
      '{type: found, reading: {kind: load, load: H1, value: off}, when: [[gear, reverse]]}',
    ],
    ['told H1 off', '{type: found, reading: {kind: load, load: H1, value: off}, evidence: told}'],
    [
      'testlamp X3.1h lit',
      '{type: found, reading: {kind: test lamp, red: X3.1h, black: bat-, value: lit, lamp: filament}}',
    ],
    ['jumper S2', '{type: did, action: {do: jumper, between: [S2.1, S2.2]}}'],
    [
      'repair X3 cleaned 15 min 5.5 price',
      '{type: did, action: {do: repair, at: X3, how: cleaned, minutes: 15, price: "5,5"}}',
    ],
    ['symptom absent', '{type: symptom, symptom: absent}'],
    ['cause GP2 loose', '{type: concluded, at: GP2, words: loose}'],
  ])('%s', async (line, event) => {
    const steps = (step: string) => TEXT.replace(/steps:\n[^]*expect/, `steps:\n  - ${step}\nexpect`);
    const [one, other] = [await load(steps(line)), await load(steps(event))];
    expect(other.recorded).toEqual(one.recorded);
    expect(one.recorded.every((record) => isEvent(JSON.parse(JSON.stringify(record.event))))).toBe(true);
  });
});

test('when the published schema is checked then it is valid, closed and says what every value is', () => {
  const ajv = new Ajv2020({ allowUnionTypes: true });
  expect(ajv.validateSchema(SESSION_SCHEMA)).toBe(true);
  const open: string[] = [];
  const walk = (node: unknown, at: string): void => {
    if (typeof node !== 'object' || node === null) return;
    const { properties, additionalProperties, allOf } = node as Record<string, unknown>;
    if (properties && additionalProperties !== false && !allOf && !at.endsWith('/if')) open.push(at);
    for (const [key, value] of Object.entries(node)) walk(value, `${at}/${key}`);
  };
  walk(SESSION_SCHEMA, '');
  expect(open).toEqual([]);
});

test('when a sound file is changed at random then it loads or is told, and never throws', async () => {
  const pieces = [
    ...new Set(TEXT.split(/([\s,:{}[\]"]+)/)),
    '\u0000',
    '\u202e',
    '- - -',
    '{',
    '"',
    '&a',
    '*a',
    '\t',
    '9e999',
  ];
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(fc.nat(TEXT.length), fc.nat(12), fc.constantFrom(...pieces)), {
        minLength: 1,
        maxLength: 4,
      }),
      async (changes) => {
        let text = TEXT;
        for (const [at, cut, piece] of changes) text = text.slice(0, at) + piece + text.slice(at + cut);
        const result = await parseSession(text, path);
        if ('recorded' in result) return;
        expect(result.problems.length).toBeGreaterThan(0);
        for (const line of printDiagnostics(text, 'x.yaml', result.problems))
          expect(line).not.toMatch(/[\p{Cc}\p{Cf}]/u);
      },
    ),
    { numRuns: 500, seed: 3 },
  );
});

test('when a session file is read then its text is what is checked', async () => {
  const text = await readFile(`${folder}question.yaml`, 'utf8');
  expect(await readSessionFile(`${folder}question.yaml`)).toEqual(
    await parseSession(text, `${folder}question.yaml`),
  );
});
