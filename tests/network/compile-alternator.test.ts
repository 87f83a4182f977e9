import { describe, expect, test } from 'vitest';
import { hasAlternator, sourceElement, sourceLaw } from '../../src/network/conditions.js';
import { each, partCircuit } from './part-circuit.js';

/** Alternator with charge lamp from the key switch, and a load of 20 A. */
const bench = partCircuit(
  `G2: {type: alternator, amps: 70 A, terminals: [B+, 31, D+]}
   S1: {type: switch, control: key, contacts: [{between: [30, 15], closed: [on]}]}
   H1: {type: lamp, name: charge lamp, watts: 3 W}
   E1: {type: heater, amps: 20 A}`,
  [
    'SP1 to G2.B+',
    'G2.31 to GP1',
    'SP1 to S1.30',
    'S1.15 to H1.1',
    'H1.31 to G2.D+',
    'SP1 to E1.1',
    'E1.2 to GP1',
  ],
);
const on = { controls: { key: 'on' } } as const;
const running = { ...on, engine: 'running' } as const;
const lamp = (outcome: ReturnType<typeof bench.only>) => bench.volts(outcome, 'H1.1', 'H1.31') / 12;

describe('an alternator', () => {
  test('when the key is on and the engine off then the charge lamp is lit through the field', () => {
    const outcome = bench.only(on);
    expect(lamp(outcome)).toBeGreaterThan(0.8);
    expect(bench.volts(outcome, 'G2.D+')).toBeGreaterThan(0.7);
  });

  test('when the engine runs then it carries the load, charges the battery and the lamp is dark', () => {
    const outcome = bench.only(running);
    // Charging voltage at the battery: 13.2 to 14.4 V, up to 14.7 V (trade tables, from memory).
    expect(bench.volts(outcome, 'bat+')).toBeGreaterThan(13.2);
    expect(bench.volts(outcome, 'bat+')).toBeLessThan(14.7);
    expect(bench.amps(outcome, 'G1:emf', running)).toBeLessThan(0);
    expect(Math.abs(lamp(outcome))).toBeLessThan(0.05);
  });

  test('when the belt is off then the battery carries all and the lamp is lit', () => {
    const setUp = { ...running, faults: [bench.series('G2:belt', Infinity)] };
    for (const outcome of bench.outcomes(setUp)) {
      expect(bench.volts(outcome, 'bat+')).toBeLessThan(13);
      expect(lamp(outcome)).toBeGreaterThan(0.8);
    }
  });

  test('when the charge lamp is broken then it may charge or not, and the lamp is dark either way', () => {
    const setUp = { ...running, faults: [bench.series('H1:1 lead', Infinity)] };
    const found = each(bench.outcomes(setUp), (outcome) => bench.volts(outcome, 'bat+'));
    expect(found).toHaveLength(2);
    expect(found[0]).toBeLessThan(13);
    expect(found[1]).toBeGreaterThan(13.2);
  });

  test.each([3, 15])(
    'when brushes and regulator leave %d ohm then a charge lamp still excites it',
    (whole) => {
      const { law } = bench.network.elements[bench.element('G2:field')]!;
      const ohms = whole - (law.kind === 'ohms' ? law.ohms : NaN);
      const regulator = bench.element('G2:regulator');
      const faults = [
        { kind: 'law', element: regulator, law: { kind: 'ohms', ohms, low: ohms, high: ohms } } as const,
      ];
      expect(bench.volts(bench.only({ ...running, faults }), 'bat+')).toBeGreaterThan(13.2);
    },
  );

  test('when the charge lamp has much too many ohms then it may charge or not', () => {
    // Below a tenth of an ampere only what magnetism is left excites it (common practice, no source).
    const setUp = { ...running, faults: [bench.series('H1:1 lead', 200)] };
    expect(bench.outcomes(setUp)).toHaveLength(2);
  });

  test('when the charging line has ohms then the alternator stands above the battery by their drop', () => {
    const wire = bench.circuit.wires.find(({ to }) => to === 'G2.B+')!;
    const setUp = { ...running, faults: [bench.series(wire.id, 0.03)] };
    const outcome = bench.only(setUp);
    const drop = bench.volts(outcome, 'G2.B+', 'SP1');
    expect(drop / Math.abs(bench.amps(outcome, wire.id, setUp))).toBeCloseTo(0.032, 2);
    expect(drop).toBeGreaterThan(0.5);
  });

  test('when it stands still then it takes next to nothing from the battery', () => {
    const amps = bench.amps(bench.only(), 'G2.B+');
    expect(Math.abs(amps)).toBeLessThan(1e-3);
  });

  test('when its list of terminals leaves out the housing then it is bolted to the body', () => {
    const bolted = partCircuit('G2: {type: alternator, amps: 70 A, terminals: [B+]}', ['SP1 to G2.B+']);
    const outcome = bolted.only({ engine: 'running' });
    expect(bolted.volts(outcome, 'bat+')).toBeGreaterThan(13.2);
    expect(bolted.volts(bolted.only(), 'bat+')).toBeLessThan(12.7);
  });
});

describe('the battery beside a running engine', () => {
  const plain = partCircuit('H1: {type: lamp, watts: 5 W}', ['SP1 to H1.1', 'H1.31 to GP1']);
  const law = (of: typeof plain, engine: 'off' | 'running') => {
    const found = sourceLaw(of.network, 12, engine);
    if (found.kind !== 'source') throw new Error('a source');
    return found;
  };

  test('when no alternator is drawn then the battery itself has charging volts', () => {
    expect(hasAlternator(plain.network)).toBe(false);
    expect(law(plain, 'running').volts).toBe(14);
  });

  test('when an alternator is drawn then the battery stays one that is charged, empty or fresh, with more ohms', () => {
    expect(hasAlternator(bench.network)).toBe(true);
    const { volts, lowVolts, highVolts, ohms } = law(bench, 'running');
    expect(volts).toBeLessThan(13);
    expect(lowVolts).toBeLessThanOrEqual(11);
    expect(highVolts).toBeGreaterThanOrEqual(14.2);
    expect(ohms).toBeGreaterThan(law(bench, 'off').ohms);
  });

  test('when the alternator stands before the battery in the file then the battery is still the source', () => {
    const { network } = bench;
    expect(network.elements[sourceElement(network)]!.site).toBe('G1:emf');
  });
});
