/** No test that is on offer is on the hand-reviewed list of dangers, on any shipped circuit, in any condition, with any tool. */
import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Diagnosis } from '../../src/diagnosis/diagnosis-types.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { candidates } from '../../src/planning/candidates.js';
import type { Condition } from '../../src/planning/condition.js';
import { cautionsBefore } from '../../src/planning/step-cautions.js';
import type { Recorded } from '../../src/session/events.js';
import { parseLine } from '../../src/session/parse-line.js';
import type { SetUp } from '../../src/session/setup.js';
import { atRest } from '../../src/session/setup.js';
import { workbenchOf } from '../diagnosis/session-of.js';
import { dangerOf } from './dangerous-pairs.js';

const CIRCUITS = readdirSync('circuits').map((file) => file.replace('.yaml', ''));

/** At rest; each control worked alone; all of them; the same with the engine running. */
function setUps({ circuit }: Workbench): SetUp[] {
  const rest = atRest(circuit);
  const controls = [...circuit.controls.values()];
  const worked = controls.flatMap(({ id, positions }) =>
    positions
      .slice(1)
      .map((position): SetUp => ({ ...rest, controls: new Map(rest.controls).set(id, position) })),
  );
  const all: SetUp = {
    ...rest,
    controls: new Map(controls.map(({ id, positions }) => [id, positions.at(-1)!])),
  };
  return [rest, ...worked, all, { ...all, engine: 'running' }];
}

test.each(CIRCUITS)('when %s fails in any condition then nothing dangerous is on offer', async (name) => {
  const bench = await workbenchOf(name);
  const failed = [...bench.network.loads.keys()];
  const conditions = setUps(bench).map((setUp): Condition => ({ setUp, failed }));
  const offered = candidates(bench, { suspects: [] } as unknown as Diagnosis, conditions);
  expect(offered.length).toBeGreaterThan(50);
  const seen = new Set<string>();
  const dangers = offered.flatMap((candidate) => {
    const danger = dangerOf(bench, candidate);
    return danger === undefined ? [] : [`${danger}: ${candidate.words}`];
  });
  for (const { reading } of offered) seen.add(reading.kind);
  expect(dangers).toEqual([]);
  expect(seen.has('volts') && seen.has('ohms')).toBe(true);
});

/**
 * What a person may volunteer, reviewed by hand: circuit, what was done before, the line, the caution it must get. Sources: see the
 * texts of the cautions.
 */
const VOLUNTEERED: readonly (readonly [
  circuit: string,
  before: readonly string[],
  line: string,
  caution: string,
])[] = [
  ['stop-tail', [], 'ohms F4.1 body 0.1', 'ohms-live'],
  ['stop-tail', ['pedal down'], 'beep H1.54 body yes', 'ohms-live'],
  ['starter-24v', [], 'ohms S4.1 body 0.1', 'ohms-live'],
  ['stop-tail', ['pedal down'], 'jumper H1.54 H1.31', 'jumper-short'],
  ['stop-tail', [], 'jumper bat+ body', 'jumper-short'],
  ['stop-tail', ['out F4'], 'jumper F4.1 F4.2', 'jumper-fused'],
  ['stop-tail', [], 'new F4', 'fuse-rating'],
  ['starter', [], 'jumper K2.30 K2.87', 'jumper-cranks'],
  ['starter', [], 'key start', 'control-cranks'],
  ['starter', ['key start'], 'amps B5 20', 'amps-series'],
  ['starter', ['amps B2 0.4'], 'volts K2.30 12.0', 'meter-sockets'],
  ['charging', ['engine running'], 'unplug X1', 'fuse-engine'],
  ['charging', ['engine running'], 'out G1', 'battery-engine'],
  ['charging', ['engine running'], 'out F1', 'fuse-engine'],
  ['charging', [], 'engine running', 'engine-running'],
  ['charging', [], 'wiggle G2', 'fan-key-off'],
  ['radiator-fan', [], 'clean M1', 'fan-key-off'],
  ['radiator-fan', ['key on'], 'jumper K1.30 K1.87', 'jumper-motion'],
  ['fuel-pump', ['key on'], 'jumper K1.30 K1.87', 'jumper-fuel'],
  ['power-window', ['key on'], 'jumper S3.3 S3.2', 'jumper-motion'],
  ['daytime-module', [], 'testlamp A1.58L lit', 'test-lamp-module'],
  ['daytime-module', [], 'jumper A1.58L body', 'jumper-module-output'],
  ['can-pair', [], 'testlamp A1.CH lit', 'test-lamp-module'],
  ['can-pair', [], 'jumper A1.CH bat+', 'jumper-module'],
  ['coolant-sensor', [], 'testlamp A1.3 lit', 'test-lamp-module'],
  ['stop-tail', [], 'clean G1', 'battery-gas'],
];

test.each(VOLUNTEERED)(
  'when on %s after %j a person types %s then the caution is %s',
  async (name, before, line, id) => {
    const { circuit } = await workbenchOf(name);
    const recorded: Recorded[] = [];
    const typed = (text: string) => {
      const parsed = parseLine(text, circuit, recorded);
      if (parsed.kind !== 'events') throw new Error(`${text}: ${JSON.stringify(parsed)}`);
      return parsed.events;
    };
    for (const text of before)
      for (const event of typed(text)) recorded.push({ number: recorded.length + 1, at: '', event });
    expect(cautionsBefore(circuit, recorded, typed(line)).map((caution) => caution.id)).toContain(id);
  },
);

test('when a short is suspected then no fuse is put at risk for a reading, and otherwise one may be', async () => {
  const bench = await workbenchOf('stop-tail');
  const { circuit } = bench;
  const conditions: Condition[] = [{ setUp: setUps(bench)[1]!, failed: ['H1.54'] }];
  const fitted = (share: number): boolean => {
    const short = bench.faults.find(({ kind }) => kind === 'short')!;
    const diagnosis = { suspects: [{ faults: [short], share }] } as unknown as Diagnosis;
    return candidates(bench, diagnosis, conditions).some(({ setUp }) =>
      [...setUp.fitted.keys()].some((part) => circuit.parts.get(part)!.type === 'fuse'),
    );
  };
  expect([fitted(0.01), fitted(0.5)]).toEqual([true, false]);
});
