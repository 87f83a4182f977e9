/** A clamp reads the current through a wire or contact and adds nothing to the circuit. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { circuitOf, kinds } from '../session/kinds-circuit.js';
import { Asked } from './asked.js';

const asked = new Asked(kinds);
const on = (line: string) => ['key on', line];
const band = (line: string, ...faults: Parameters<Asked['agrees']>[1][]) =>
  asked.band(asked.observations(...on(line))[0]!, ...faults);

test('when a lamp burns then the clamp shows its current on every part of its way', () => {
  // 21 W at 12 V is 1.75 A; about 1.8 A at 12.6 V.
  for (const at of ['W6', 'F1.1', 'F1.2', 'H1.31']) {
    const { low, high } = band(`clamp ${at} 1.8`);
    expect(low).toBeGreaterThan(1);
    expect(low).toBeLessThan(1.8);
    expect(high).toBeGreaterThan(1.8);
    expect(high).toBeLessThan(2.6);
  }
});

test('when the way is open somewhere then the clamp shows nothing, and a high joint lowers it', () => {
  expect(asked.agrees(on('clamp F1.2 0.0'), asked.open('H1.31'))).toBe(true);
  expect(asked.agrees(on('clamp F1.2 1.8'), asked.open('H1.31'))).toBe(false);
  expect(asked.agrees(on('clamp F1.2 1.8'))).toBe(true);
  expect(asked.agrees(on('clamp F1.2 0.56'), asked.open('F1.2', 20))).toBe(true);
  expect(asked.agrees(on('clamp F1.2 0.56'))).toBe(false);
});

test('when the clamp drifts a little around a dead wire then nothing is wrong', () => {
  expect(asked.agrees(['clamp F1.2 0.04'])).toBe(true);
  expect(asked.agrees(['clamp F1.2 0.20'])).toBe(false);
});

test('when the clamped wire itself touches the body then both sides of that place are possible', () => {
  // The feed of the heater: about 10 A to it, and as much again through the chafed place.
  const chafed = asked.short('W13', 1.2);
  const [wire, contact] = ['W13', 'F3.2'].map((at) => band(`clamp ${at} 20/12.6`, chafed));
  expect(wire!.high).toBeGreaterThan(17);
  expect(wire!.high).toBeGreaterThanOrEqual(contact!.high);
  // At the contact before it there is no doubt.
  expect(contact!.low - wire!.low).toBeGreaterThan(5);
});

/** Two wires side by side share the current by their ohms, so each one's own tolerance counts most. */
const SHARED = circuitOf(`circuit: shared
title: Two wires side by side
nominal: 12 V
controls: {key: [off, on]}
places: {bench: 1 min}
parts:
  G1: {type: battery, place: bench}
  GP1: {type: ground, place: bench}
  SP1: {type: splice, place: bench}
  SP2: {type: splice, place: bench}
  F1: {type: fuse, rating: 30 A, place: bench}
  S1: {type: switch, control: key, place: bench, contacts: [{between: [1, 2], closed: [on]}]}
  R1: {type: heater, amps: 10 A, place: bench}
wires:
  - {from: G1.30, to: F1.1, size: 6 mm2, length: 1 m}
  - {from: F1.2, to: SP1, size: 6 mm2, length: 1 m}
  - {from: SP1, to: SP2, size: 1.5 mm2, length: 5 m}
  - {from: SP1, to: SP2, size: 1.5 mm2, length: 5 m}
  - {from: SP2, to: S1.1, size: 6 mm2, length: 1 m}
  - {from: S1.2, to: R1.1, size: 6 mm2, length: 1 m}
  - {from: R1.2, to: GP1, size: 6 mm2, length: 1 m}
  - {from: G1.31, to: GP1, size: 6 mm2, length: 1 m}
`);

test('when every part lies anywhere in its tolerance then the current lies in the band', () => {
  const shared = new Asked(SHARED);
  const [observation] = shared.observations('key on', 'clamp W3 5');
  const { low, high } = shared.band(observation!);
  const { network } = shared.bench;
  const solver = shared.bench.solver(observation!.added);
  const edges = fc.array(fc.constantFrom(-1, 1), {
    minLength: network.elements.length,
    maxLength: network.elements.length,
  });
  let widest = 0;
  fc.assert(
    fc.property(edges, (corner) => {
      const variant = {
        present: observation!.present,
        faults: [],
        blown: 0,
        corner: Int8Array.from(corner),
      };
      const [outcome] = solver.solve(variant);
      const amps = Math.abs(solver.current(outcome!, variant, shared.site('W3')));
      widest = Math.max(widest, amps);
      expect(amps).toBeGreaterThanOrEqual(low);
      expect(amps).toBeLessThanOrEqual(high);
    }),
    { numRuns: 400, seed: 3 },
  );
  // Were the own edge of the wire turned the wrong way, the band would end below what happens.
  expect(widest).toBeGreaterThan(6.5);
});
