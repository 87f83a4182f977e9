import { describe, expect, test } from 'vitest';
import { OHMMETER_VOLTS, ohmmeter, ohmmeterReads } from '../../src/network/meters.js';
import { each, partCircuit } from './part-circuit.js';

describe('loads on a good supply', () => {
  test.each([
    ['heater, watts: 120 W', '1', '2', 'wire', 10],
    ['solenoid, ohms: 12 ohm', '1', '2', 'coil', 1],
    ['solenoid, watts: 24 W', '1', '2', 'coil', 2],
    ['buzzer, amps: 0.2 A', '1', '31', 'buzzer', 0.2],
    ['load, watts: 36 W', '1', '31', 'inside', 3],
    ['LED lamp, watts: 6 W', '1', '31', 'LED', 0.5],
    ['motor, amps: 5 A, stall: 30 A', '1', '2', 'winding', 5],
  ])(
    'when it is a %s then it draws about its rated current and can be watched',
    (type, from, to, site, amps) => {
      const bench = partCircuit(`E1: {type: ${type}}`, [`SP1 to E1.${from}`, `E1.${to} to GP1`]);
      const outcome = bench.only();
      // 12.6 V at the battery: an LED gains most by the twentieth more than its rating.
      expect(bench.amps(outcome, `E1:${site}`) / amps).toBeGreaterThan(0.98);
      expect(bench.amps(outcome, `E1:${site}`) / amps).toBeLessThan(1.2);
      expect([...bench.network.loads.keys()]).toEqual(['E1']);
      expect(bench.network.loads.get('E1')!.ratedVolts).toBe(12);
    },
  );

  test('when an LED lamp is wired the wrong way round then no current goes through it', () => {
    const bench = partCircuit('H1: {type: LED lamp, watts: 6 W}', ['SP1 to H1.31', 'H1.1 to GP1']);
    expect(Math.abs(bench.amps(bench.only(), 'H1:LED'))).toBeLessThan(1e-6);
  });

  test('when only the watts of a load are known then its band holds a fixed resistance and a fixed current', () => {
    const bench = partCircuit('E1: {type: load, watts: 36 W}', ['SP1 to E1.1', 'E1.31 to GP1']);
    const { law } = bench.network.elements[bench.element('E1:inside')]!;
    if (law.kind !== 'curve') throw new Error('a curve');
    for (const share of [0.4, 0.6, 0.8, 1]) {
      const middle = law.amps * share ** law.exponent;
      expect(middle * (1 - law.spread)).toBeLessThanOrEqual(3 * share);
      expect(middle * (1 + law.spread)).toBeGreaterThanOrEqual(3);
    }
  });
});

describe('resistors', () => {
  test('when a pack has two in a row then a load behind both gets less than one behind the first', () => {
    const bench = partCircuit(
      `R1: {type: resistor pack, resistors: [{between: [1, 2], ohms: 1 ohm}, {between: [2, 3], ohms: 2 ohm}]}
       R2: {type: resistor, ohms: 3 ohm}
       R3: {type: resistor, ohms: 10 kohm}`,
      ['SP1 to R1.1', 'R1.2 to R3.1', 'R3.2 to GP1', 'R1.3 to R2.1', 'R2.2 to GP1'],
    );
    const outcome = bench.only();
    expect(bench.amps(outcome, 'R1:1-2')).toBeCloseTo(12.6 / 6, 1);
    expect(bench.volts(outcome, 'R3.1')).toBeCloseTo((12.6 * 5) / 6, 1);
    expect(bench.volts(outcome, 'R2.1')).toBeCloseTo((12.6 * 3) / 6, 1);
  });

  test.each([
    ['empty', 250],
    ['half', 100],
    ['full', 20],
  ])('when the tank is %s then the sender has %d ohm', (position, ohms) => {
    const bench = partCircuit(
      'B1: {type: sender, control: tank, ohms: {empty: 250 ohm, half: 100 ohm, full: 20 ohm}}',
      ['SP1 to B1.1', 'B1.2 to GP1'],
      'tank: [empty, half, full]',
    );
    const [a, b] = ['B1.2i', 'B1.1i'].map((point) => bench.network.points.get(point)!) as [number, number];
    const added = [{ a, b, law: ohmmeter(OHMMETER_VOLTS) }];
    const outcome = bench.only({ controls: { tank: position }, out: ['B1'], added });
    expect(ohmmeterReads(bench.volts(outcome, 'B1.1i', 'B1.2i'))).toBeCloseTo(ohms, 0);
  });
});

describe('a trailer frame', () => {
  const bench = partCircuit(
    `H1: {type: lamp, watts: 21 W}
     GP2: {type: ground, frame: trailer}
     C1: {type: coupling, frame: trailer, control: hitch, closed: [hitched]}`,
    ['SP1 to H1.1', 'H1.31 to GP2'],
    'hitch: [unhitched, hitched]',
  );

  test('when it is unhitched then the frame has no way to the body and the lamp is dark', () => {
    const outcome = bench.only();
    expect(bench.volts(outcome, 'trailer', 'body')).toBeGreaterThan(12);
    expect(Math.abs(bench.amps(outcome, 'H1:1'))).toBeLessThan(1e-6);
  });

  test('when it is hitched then the metal conducts somehow: a good path and next to none are both in its band', () => {
    const outcome = bench.only({ controls: { hitch: 'hitched' } });
    expect(bench.amps(outcome, 'H1:1')).toBeGreaterThan(1);
    const { law } = bench.network.elements[bench.element('C1:metal')]!;
    if (law.kind !== 'contact') throw new Error('a contact');
    expect(law.low).toBeLessThan(0.05);
    expect(law.high).toBeGreaterThan(50);
  });
});

describe('protection', () => {
  const shorted = (type: string) => {
    const bench = partCircuit(`F1: {type: ${type}, rating: 10 A}\nR1: {type: resistor, ohms: 0.2 ohm}`, [
      'SP1 to F1.1',
      'F1.2 to R1.1',
      'R1.2 to GP1',
    ]);
    return { bench, blown: each(bench.outcomes(), ({ blown }) => blown) };
  };

  test('when a fusible link carries six times its rating then it is open', () => {
    expect(shorted('fusible link').blown).toEqual([1]);
  });

  test('when a breaker does then an automatic one is found open or closed, a manual one open', () => {
    expect(shorted('breaker').blown).toEqual([0, 1]);
    expect(shorted('breaker, reset: manual').blown).toEqual([1]);
  });

  test('when an automatic breaker tripped before then it may have closed again, a manual one has not', () => {
    const outcomes = (reset: string) => {
      const bench = partCircuit(
        `F1: {type: breaker, rating: 10 A, reset: ${reset}}\nR1: {type: resistor, ohms: 5 ohm}`,
        ['SP1 to F1.1', 'F1.2 to R1.1', 'R1.2 to GP1'],
      );
      return each(bench.outcomes({ blown: 1 }), ({ blown }) => blown);
    };
    expect(outcomes('automatic')).toEqual([0, 1]);
    expect(outcomes('manual')).toEqual([1]);
  });

  test('when the contact ohms of a contactor are stated then its closed contact has them', () => {
    const bench = partCircuit('K1: {type: relay, contact: 0.001 ohm}\nR1: {type: resistor, ohms: 1 ohm}', [
      'SP1 to K1.30',
      'SP1 to K1.86',
      'K1.85 to GP1',
      'K1.87 to R1.1',
      'R1.2 to GP1',
    ]);
    const outcome = bench.only();
    const drop = bench.volts(outcome, 'K1.30i', 'K1.87i');
    expect(drop / bench.amps(outcome, 'K1:30-87')).toBeCloseTo(0.001, 6);
  });

  test('when a switch has two poles on the ground side then each opens its own load', () => {
    const bench = partCircuit(
      `S1: {type: switch, control: key, contacts: [{between: [1, 31], closed: [on]}, {between: [2, 32], closed: [on]}]}
       H1: {type: lamp, watts: 5 W}
       H2: {type: lamp, watts: 5 W}`,
      ['SP1 to H1.1', 'SP1 to H2.1', 'H1.31 to S1.1', 'H2.31 to S1.2', 'S1.31 to GP1', 'S1.32 to GP1'],
    );
    const lit = (setUp: Parameters<typeof bench.only>[0]) =>
      ['H1:1', 'H2:1'].map((site) => bench.amps(bench.only(setUp), site, setUp) > 0.3);
    expect(lit({})).toEqual([false, false]);
    const on = { controls: { key: 'on' } };
    expect(lit(on)).toEqual([true, true]);
    expect(lit({ ...on, faults: [bench.series('S1:1-31', Infinity)] })).toEqual([false, true]);
  });
});
