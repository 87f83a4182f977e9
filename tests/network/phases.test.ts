import { describe, expect, test } from 'vitest';
import { mayFlash, seenVolts } from '../../src/network/phases.js';
import { each, partCircuit } from './part-circuit.js';

/** A lamp and an LED lamp on an output that is closed for a part of the time, and a resistor behind its own. */
const pulsed = (duty: number) =>
  partCircuit(
    `A1: {type: module, supply: 30, ground: 31, inputs: {2: {pull: down}}, outputs: {7: {side: high, on: {2: high}, duty: ${duty} %}}}
     H1: {type: lamp, watts: 21 W}
     H2: {type: LED lamp, watts: 2 W}
     R1: {type: resistor, ohms: 10 ohm}
     SP2: {type: splice}`,
    ['SP1 to A1.30', 'A1.31 to GP1', 'SP1 to A1.2', 'A1.7 to SP2', 'SP2 to H1.1', 'H1.31 to GP1'].concat([
      'SP2 to H2.1',
      'H2.31 to GP1',
      'SP2 to R1.1',
      'R1.2 to GP1',
    ]),
  );

describe('an output that is closed for a part of the time', () => {
  test.each([60, 20])('when that is %d % then a DC meter shows that part of the volts', (duty) => {
    const bench = pulsed(duty);
    const outcome = bench.only();
    expect(outcome.phases!.slow).toBe(false);
    // On a resistor nothing else can be expected than the mean, in volts and in amperes.
    expect(bench.volts(outcome, 'R1.1', 'R1.2') / bench.volts(outcome, 'bat+')).toBeCloseTo(duty / 100, 1);
    expect(bench.amps(outcome, 'R1:body')).toBeCloseTo((duty / 1000) * 12.6, 1);
    const shares = outcome.phases!.steps.map(({ share }) => share);
    expect(shares.reduce((sum, share) => sum + share)).toBeCloseTo(1, 12);
  });

  test('when its current is asked for then a lamp has the mean of its two, not the current at the mean volts', () => {
    const bench = pulsed(50);
    const outcome = bench.only();
    const full = bench.only({
      faults: [{ kind: 'stuck', element: bench.element('A1:7 driver'), closed: true }],
    });
    expect(full.phases).toBeUndefined();
    expect(bench.amps(outcome, 'H1:1')).toBeCloseTo(
      bench.amps(full, 'H1:1', {
        faults: [{ kind: 'stuck', element: bench.element('A1:7 driver'), closed: true }],
      }) / 2,
      1,
    );
  });

  test('when it is stuck open then it is dark and nothing pulses', () => {
    const bench = pulsed(50);
    const outcome = bench.only({
      faults: [{ kind: 'stuck', element: bench.element('A1:7 driver'), closed: false }],
    });
    expect(outcome.phases).toBeUndefined();
    expect(bench.volts(outcome, 'H1.1', 'H1.31')).toBeLessThan(0.01);
  });

  test('when an eye judges then a filament has more than the mean and less than all, an LED up to all', () => {
    const bench = pulsed(50);
    const outcome = bench.only();
    const seen = (load: string, kind: 'lamp' | 'LED') => {
      const { a, b } = bench.network.elements[bench.network.loads.get(load)!.element]!;
      return seenVolts(outcome, a, b, kind);
    };
    const filament = seen('H1', 'lamp');
    // The heat of half the time at 12.5 V is that of 8.8 V all the time (root of the mean of the squares).
    expect(filament.low).toBeCloseTo(0.9 * 8.8, 0);
    expect(filament.high).toBeGreaterThan(8.5);
    expect(filament.high).toBeLessThan(11.5);
    expect(seen('H2', 'LED').high).toBeGreaterThan(12);
  });

  test('when duty, supply or a joint move to an edge then the mean moves as the signs say', async () => {
    const { Solver } = await import('../../src/network/solver.js');
    const bench = pulsed(60);
    const { network } = bench;
    const solver = new Solver(network);
    const base = { present: new Uint8Array(network.elements.length).fill(1), faults: [], blown: 0 };
    const nominal = solver.solve(base)[0]!;
    const [a, b] = ['R1.1', 'R1.2'].map((point) => network.points.get(point)!) as [number, number];
    const { signs } = solver.adjoint(nominal, base, a, b);
    for (const site of ['A1:7 driver', 'G1:emf', 'A1.7', 'A1.30', 'R1:body', 'H1:1']) {
      const i = bench.element(site);
      const at = (edge: number) => {
        const corner = new Int8Array(network.elements.length);
        corner[i] = edge;
        const { volts } = solver.solve({ ...base, corner })[0]!;
        return volts[a]! - volts[b]!;
      };
      expect(Math.sign(at(1) - at(-1)), site).toBe(signs[i]);
    }
    const all = solver.solve({ ...base, corner: signs })[0]!;
    // 60 % may be 69 %.
    expect((all.volts[a]! - all.volts[b]!) / 13.2).toBeCloseTo(0.69, 1);
  });
});

describe('a flasher', () => {
  const flasher = (terminals: string, ...more: string[]) =>
    partCircuit(
      `K1: {type: flasher, terminals: [${terminals}]}
       H1: {type: lamp, watts: 21 W}`,
      ['SP1 to K1.49', 'K1.49a to H1.1', 'H1.31 to GP1', ...more],
    );
  const loadOf = (bench: ReturnType<typeof flasher>) => {
    const { element } = bench.network.loads.get('H1')!;
    return bench.network.elements[element]!;
  };

  test('when it works then the lamp may be found lit and dark, each in an outcome that knows of the other', () => {
    const bench = flasher('49, 49a');
    const outcomes = bench.outcomes();
    const { a, b } = loadOf(bench);
    const found = each(outcomes, ({ volts }) => volts[a]! - volts[b]!);
    expect(found).toHaveLength(2);
    expect(found[0]).toBeLessThan(0.01);
    expect(found[1]).toBeGreaterThan(12);
    for (const outcome of outcomes) {
      expect(outcome.phases!.slow).toBe(true);
      expect(outcome.chatters).toBe(false);
      expect(mayFlash(outcome, a, b, 6, 2)).toBe(true);
      expect(seenVolts(outcome, a, b, 'lamp').low).toBeGreaterThan(12);
    }
  });

  test('when the lamp has no ground then it does not flash', () => {
    const bench = flasher('49, 49a');
    const { a, b } = loadOf(bench);
    for (const outcome of bench.outcomes({ faults: [bench.series('H1.31', Infinity)] }))
      expect(mayFlash(outcome, a, b, 1, 0.5)).toBe(false);
  });

  test('when an electronic one has lost its ground then the lamp stays dark', () => {
    const bench = flasher('49, 49a, 31', 'K1.31 to GP1');
    expect(bench.outcomes()).toHaveLength(2);
    const outcome = bench.only({ faults: [bench.series('K1.31', Infinity)] });
    expect(bench.volts(outcome, 'H1.1', 'H1.31')).toBeLessThan(0.01);
  });
});
