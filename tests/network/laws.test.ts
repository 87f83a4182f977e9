import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lawChord, lawCurrent, lawSlope, voltsLeft } from '../../src/network/laws.js';
import { battery, diode, lamp, motor, ohms } from './raw-network.js';

const laws = { lamp: lamp(), motor: motor(), diode: diode(), ohms: ohms(4, 0.1), source: battery() };
const names = Object.keys(laws) as (keyof typeof laws)[];

describe('laws', () => {
  test('when a filament has rated volts, then it draws rated current', () => {
    expect(lawCurrent(lamp(21, 12), 12)).toBeCloseTo(21 / 12, 12);
  });

  // Lamp rerating: I ∝ V^0.55 (standard electrical engineering handbooks): half the volts, 68 % of the current.
  test('when a filament has half its volts, then it draws 0.683 of its current', () => {
    expect(lawCurrent(lamp(21, 12), 6) / 1.75).toBeCloseTo(0.683, 3);
  });

  test('when a filament is cold, then its resistance is the cold part of the hot one', () => {
    const hot = 12 / 1.75;
    expect(1e-6 / lawCurrent(lamp(), 1e-6)).toBeCloseTo(hot / 12, 4);
    expect(1e-6 / lawCurrent(lamp(), 1e-6, 1)).toBeCloseTo(hot / 16 / 1.12, 4);
    expect(1e-6 / lawCurrent(lamp(), 1e-6, -1)).toBeCloseTo(hot / 9 / 0.88, 4);
  });

  test('when a diode is reversed, then only 1 nS is left; forward it is its drop and its ohms', () => {
    expect(lawCurrent(diode(), -12)).toBeCloseTo(-12e-9, 15);
    expect(lawCurrent(diode(), 1.2)).toBeCloseTo(10, 9);
    expect(lawCurrent(diode(), 1.2, 1)).toBeCloseTo(14, 9);
  });

  test('when a source feeds a load, then its current runs from − to + inside', () => {
    expect(lawCurrent(battery(12.6, 0.01), -12.5)).toBeCloseTo(10, 9);
    expect(lawCurrent(battery(12.6, 0.01), -12.6, 1)).toBeCloseTo(100, 6);
  });

  test.each(names)('when volts rise, then the current of the %s rises, without a step', (name) => {
    const law = laws[name];
    const falls: number[] = [];
    const jumps: number[] = [];
    for (const edge of [-1, 0, 1]) {
      for (let volts = -30; volts < 30; volts += 0.01) {
        const amps = lawCurrent(law, volts, edge);
        if (!(lawCurrent(law, volts + 0.01, edge) > amps)) falls.push(volts);
        if (!(lawCurrent(law, volts + 1e-9, edge) - amps < 1e-6)) jumps.push(volts);
      }
    }
    expect({ falls, jumps }).toEqual({ falls: [], jumps: [] });
  });

  test.each(names)('when volts change a little, then the current of the %s follows its slope', (name) => {
    const law = laws[name];
    // Away from the knee of a curve (0.6 V, 1.2 V) and the corner of the diode (0.5 … 0.9 V).
    for (const volts of [-20, -3, -0.3, 0.003, 0.3, 1.5, 7, 20]) {
      const slope = (lawCurrent(law, volts + 1e-6) - lawCurrent(law, volts - 1e-6)) / 2e-6;
      expect(lawSlope(law, volts) / slope).toBeCloseTo(1, 3);
    }
  });

  test('when a curve is replaced by its chord, then the current at that point is the same', () => {
    for (const volts of [-12, -0.1, 0.1, 3, 24]) {
      expect(lawChord(lamp(), volts) * volts).toBeCloseTo(lawCurrent(lamp(), volts), 12);
    }
    expect(lawChord(lamp(), 0)).toBeCloseTo(lawSlope(lamp(), 0), 9);
  });

  test('when ohms stand in series, then their drop and what is left add up', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(laws.lamp, laws.motor),
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: -3, max: 9, noNaN: true }).map((power) => 10 ** power),
        fc.constantFrom(-1, 0, 1),
        (law, volts, series, edge) => {
          const left = voltsLeft(law, volts, series, edge);
          expect(Math.abs(left + series * lawCurrent(law, left, edge) - volts)).toBeLessThan(1e-11);
        },
      ),
      { seed: 7 },
    );
  });
});
