import { describe, expect, it } from 'vitest';
import { awgToMm2, parseQuantity, type Quantity } from '../../src/circuit/quantity.js';

describe('parseQuantity', () => {
  it.each<[string, Quantity, number]>([
    ['10 A', 'amps', 10],
    ['10A', 'amps', 10],
    ['500 mA', 'amps', 0.5],
    ['7,5 A', 'amps', 7.5],
    ['12.6 V', 'volts', 12.6],
    ['1 kW', 'watts', 1000],
    ['85 ohm', 'ohms', 85],
    ['85 Ω', 'ohms', 85],
    ['2.2 kΩ', 'ohms', 2200],
    ['10 mohm', 'ohms', 0.01],
    ['0,75 mm2', 'size', 0.75],
    ['1.5 mm²', 'size', 1.5],
    ['1.5mm^2', 'size', 1.5],
    ['20 cm', 'length', 0.2],
    ['3 ft', 'length', 0.9144],
    ['8 min', 'time', 8],
    ['1 h', 'time', 60],
    ['5 %', 'percent', 5],
    ['0.60', 'money', 0.6],
  ])('when %s is written as %s then it is %d', (text, quantity, value) => {
    const parsed = parseQuantity(text, quantity);
    expect('value' in parsed ? parsed.value : parsed.wrong).toBeCloseTo(value, 9);
  });

  it.each<[string, Quantity, RegExp]>([
    ['10', 'amps', /has no unit/],
    ['10 V', 'amps', /is a voltage, not a current/],
    ['10 W', 'ohms', /is a power, not a resistance/],
    ['10 furlong', 'length', /not a unit of length/],
    ['1,000 m', 'length', /can be read as 1000 or as 1\.000/],
    ['-5 A', 'amps', /below zero/],
    ['ten A', 'amps', /not a current/],
    ['', 'volts', /not a voltage/],
    ['1e9 V', 'volts', /not a voltage/],
    ['Infinity V', 'volts', /not a voltage/],
    ['400 V', 'volts', /too large/],
    ['0 A', 'amps', /too small/],
    ['9999999999 A', 'amps', /not a current/],
  ])('when %s is written as %s then it is refused', (text, quantity, why) => {
    const parsed = parseQuantity(text, quantity);
    expect('wrong' in parsed && parsed.wrong).toMatch(why);
  });

  // Areas in the ASTM B258 table of solid round conductors (from memory).
  it.each([
    ['AWG 18', 0.823],
    ['16 awg', 1.309],
    ['AWG12', 3.309],
    ['AWG 10', 5.261],
    ['AWG 2/0', 67.43],
  ])('when a wire is %s then it has %d mm²', (text, mm2) => {
    const parsed = parseQuantity(text, 'size');
    expect('value' in parsed && parsed.value / mm2).toBeCloseTo(1, 2);
  });

  it('when the gauge goes down by six then the diameter doubles within a third of a per cent', () => {
    expect(awgToMm2('12') / awgToMm2('18')).toBeCloseTo(4.02, 1);
  });
});
