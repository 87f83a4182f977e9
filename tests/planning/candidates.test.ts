import { beforeAll, expect, test } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Candidate } from '../../src/planning/candidate.js';
import { candidates } from '../../src/planning/candidates.js';
import { cautionsFor } from '../../src/planning/cautions.js';
import { conditionsOf } from '../../src/planning/condition.js';
import { actionsBetween } from '../../src/planning/changes.js';
import { edit } from '../../src/session/actions.js';
import type { Recorded } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { parseLine } from '../../src/session/parse-line.js';
import { atRest } from '../../src/session/setup.js';
import { recordedOf, workbenchOf } from '../diagnosis/session-of.js';

async function candidatesOf(circuit: string, lines: readonly string[]) {
  const bench = await workbenchOf(circuit);
  const session = foldCase(bench.circuit, recordedOf(bench, lines));
  const diagnosis = diagnose(bench, session);
  return { bench, list: candidates(bench, diagnosis, conditionsOf(bench, session, diagnosis)) };
}

let bench: Workbench;
let list: Candidate[];
beforeAll(async () => {
  ({ bench, list } = await candidatesOf('stop-tail', ['fails H1.54 H2.54 H3 when pedal down']));
}, 60_000);

const ANSWERS: Record<string, string> = {
  volts: '1.0',
  ohms: '1.0',
  clamp: '1.0',
  'test lamp': 'lit',
  'fuse lamp': 'lit',
};

test('when a candidate is done as its steps and line say then its reading is what gets recorded', () => {
  const kinds = new Set<string>();
  for (const candidate of list.filter(({ reading }, i) => i % 7 === 0 || reading.kind === 'fuse lamp')) {
    const recorded: Recorded[] = [];
    let setUp = atRest(bench.circuit);
    for (const action of actionsBetween(setUp, candidate.setUp)) {
      recorded.push({ number: recorded.length + 1, at: '', event: { type: 'did', action } });
      setUp = edit(action, setUp);
    }
    expect(setUp).toEqual(candidate.setUp);
    const { reading } = candidate;
    const words =
      reading.kind === 'load' ? (reading.load === 'B1' ? 'silent' : 'off') : ANSWERS[reading.kind]!;
    const parsed = parseLine(`${candidate.line} ${words}`, bench.circuit, recorded);
    if (parsed.kind !== 'events') throw new Error(`${candidate.line}: ${JSON.stringify(parsed)}`);
    const [event] = parsed.events;
    const found = event?.type === 'found' ? event.reading : undefined;
    expect({ ...found, value: undefined }).toEqual({ ...reading, value: undefined });
    kinds.add(reading.kind);
  }
  expect([...kinds].sort()).toEqual(['clamp', 'fuse lamp', 'load', 'ohms', 'test lamp', 'volts']);
});

test('when the drawing has an airbag place or a line never to probe then no candidate goes there', () => {
  for (const { reading, setUp, at } of list) {
    const points = 'red' in reading ? [reading.red, reading.black] : [];
    for (const name of [...points, ...at, ...setUp.unplugged, ...setUp.out, ...setUp.jumpers.flat()])
      expect(name.split('.')[0]).not.toBe('S5');
  }
});

test('when ohms are a candidate then no line of it can be live', () => {
  for (const { reading, setUp } of list) {
    if (reading.kind !== 'ohms') continue;
    const ids = cautionsFor(bench.circuit, setUp, { type: 'found', reading }).map(({ id }) => id);
    expect(ids).not.toContain('ohms-live');
  }
});

test('when a joint has a probe point on each side then the drop across it under load is a candidate', () => {
  const drops = new Set(
    list.flatMap(({ reading, setUp }) =>
      reading.kind === 'volts' && setUp.unplugged.size === 0 ? [`${reading.red} ${reading.black}`] : [],
    ),
  );
  for (const pair of ['X3.1h X3.1c', 'F4.1 F4.2', 'S4.1 S4.2', 'H1.54 H1.31', 'GP3 body', 'X3.3h GP3'])
    expect(drops.has(pair) || drops.has(pair.split(' ').reverse().join(' ')), pair).toBe(true);
});

test('when a motor would be started by it then no jumper is a candidate', async () => {
  const { list: starter } = await candidatesOf('starter', ['fails M1 when key start']);
  expect(starter.length).toBeGreaterThan(100);
  expect(starter.filter(({ setUp }) => setUp.jumpers.length > 0)).toEqual([]);
});

test('when a module seems dead then its supply and ground are loaded as they stand, its signal lines never', async () => {
  const { list: tests } = await candidatesOf('can-pair', ['pedal down', 'H2 off']);
  const lamps = tests
    .filter(
      ({ reading, setUp }) => reading.kind === 'test lamp' && setUp.unplugged.size + setUp.out.size === 0,
    )
    .map(({ line }) => line)
    .filter((line) => line.startsWith('testlamp A'));
  expect([...new Set(lamps)].sort()).toEqual([
    ...['testlamp A1.30', 'testlamp A1.31 bat+', 'testlamp A2.30', 'testlamp A2.31 bat+'],
    ...['testlamp A3.30', 'testlamp A3.31 bat+'],
  ]);
  const loaded = tests.flatMap(({ reading, line }) =>
    reading.kind === 'volts' && reading.mode === 'loaded' ? [line] : [],
  );
  expect([...new Set(loaded)].sort()).toEqual([
    ...['volts loaded A1.30 A1.31', 'volts loaded A2.30 A2.31', 'volts loaded A3.30 A3.31'],
  ]);
});
