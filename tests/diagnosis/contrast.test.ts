/** Two loads side by side prove more than each alone, but only where the answer rises smoothly with the volts. */
import { expect, test } from 'vitest';
import { contrast } from '../../src/diagnosis/contrast.js';
import { gather } from '../../src/diagnosis/evidence.js';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { foldCase } from '../../src/session/fold.js';
import { circuitOf, kinds } from '../session/kinds-circuit.js';
import { Asked } from './asked.js';
import { diagnosisOf, recordedOf, suspectIds, workbenchOf } from './session-of.js';

/** Contrast of the last finding with the one before it. */
const compared = (asked: Asked, ...lines: readonly string[]) => {
  const findings = asked.findings(...lines);
  const before = findings.slice(0, -1);
  return contrast(asked.bench, findings.at(-1)!, before, before, []);
};
const motors = new Asked(
  circuitOf(`circuit: motors
title: Two motors
nominal: 12 V
controls: {key: [off, on]}
places: {bench: 1 min}
parts:
  G1: {type: battery, place: bench}
  GP1: {type: ground, place: bench}
  F1: {type: fuse, rating: 30 A, place: bench}
  S1: {type: switch, control: key, place: bench, contacts: [{between: [1, 2], closed: [on]}]}
  SP1: {type: splice, place: bench}
  M1: {type: motor, amps: 4 A, place: bench}
  M2: {type: motor, amps: 4 A, place: bench}
wires:
  - {from: G1.30, to: F1.1, size: 4 mm2, length: 1 m}
  - {from: F1.2, to: S1.1, size: 4 mm2, length: 1 m}
  - {from: S1.2, to: SP1, size: 4 mm2, length: 1 m}
  - {from: SP1, to: M1.1, size: 1.5 mm2, length: 1 m}
  - {from: SP1, to: M2.1, size: 1.5 mm2, length: 1 m}
  - {from: M1.2, to: GP1, size: 1.5 mm2, length: 1 m}
  - {from: M2.2, to: GP1, size: 1.5 mm2, length: 1 m}
  - {from: G1.31, to: GP1, size: 4 mm2, length: 1 m}
`),
);

test('when one of two like lamps burns and the other is dead then what feeds both is not the reason', () => {
  const asked = new Asked(kinds);
  const [observation] = compared(asked, 'key on', 'H2 lit', 'H1 off');
  expect(observation).toMatchObject({ kind: 'contrast', hard: true });
  const fits = (...faults: Parameters<Asked['agrees']>[1][]) =>
    asked.band(observation!, ...faults).high >= observation!.low;
  expect(fits(asked.open('W5', 5))).toBe(false);
  expect(fits(asked.open('H1.1'))).toBe(true);
});

test('when the two are of different size, or both alike, then nothing is compared', () => {
  const asked = new Asked(kinds);
  expect(compared(asked, 'key on', 'H2 lit', 'H3 off')).toEqual([]);
  expect(compared(asked, 'key on', 'H2 lit', 'H1 lit')).toEqual([]);
  expect(compared(asked, 'key on', 'told H2 lit', 'H1 off')).toEqual([]);
});

test('when one motor runs and the other stalls then low volts for both may still be the reason', () => {
  expect(compared(motors, 'key on', 'M1 runs', 'M2 stopped')).toEqual([]);
});

test('when the same lamp is lit and later dark then it is not compared with itself', () => {
  expect(compared(new Asked(kinds), 'key on', 'H2 lit', 'H2 off')).toEqual([]);
});

test.each([
  [['key on', 'H2 lit', 'H1 off'], 1],
  [['key on', 'H2 lit', 'key off', 'key on', 'H1 off'], 0],
  [['key on', 'H2 lit', 'testlamp F1.2 lit', 'H1 off'], 0],
])('when relays or modules may have moved in %j then %d pairs are compared', (lines, count) => {
  const bench = createWorkbench(kinds);
  const { steps } = gather(bench, foldCase(kinds, recordedOf(bench, lines)));
  const contrasts = steps.filter(
    (step) => step.kind === 'observation' && step.observation.kind === 'contrast',
  );
  expect(contrasts).toHaveLength(count);
});

test('when a fuse may have blown between the lit lamp and the dark one then its short stays suspected', async () => {
  const bench = await workbenchOf('headlamps-relay');
  const lines = ['lights head', 'see H6 lit', 'testlamp S1.30 off', 'see H6 off'];
  expect(suspectIds(diagnosisOf(bench, lines))).toContain('W31 touching W32');
});

test.each(['H4 flashes', 'H4 flashes fast'])(
  'when of like turn signals one is dead and %s then what reaches both is hardly to blame, but may be',
  async (flashing) => {
    const bench = await workbenchOf('turn-hazard');
    const { suspects } = diagnosisOf(bench, ['hazard on', 'H3 off', 'H1 flashes', flashing]);
    const [both, own] = ['GP1 resistance', 'H3.1 resistance'].map((id) =>
      suspects.find(({ hypothesis }) => hypothesis === id),
    );
    expect(both!.soft.map(({ finding, words }) => ({ finding, words }))).toContainEqual({
      finding: 4,
      words: 'one flashes and one like it is dead does not fit, but proves nothing yet',
    });
    expect(both!.share).toBeGreaterThan(0);
    expect(both!.share).toBeLessThan(0.1 * own!.share);
  },
);
