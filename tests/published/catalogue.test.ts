/** The part catalogue against the standards and tables that its figures come from. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE, inCatalogue, madeFor } from '../../src/circuit/catalogue.js';
import { BLADE_FUSES, WIRE_SIZES } from '../../src/circuit/catalogue-sizes.js';
import { awgToMm2 } from '../../src/circuit/quantity.js';
import { compile, filamentLaw, wireOhms } from '../../src/network/compile.js';
import { lawCurrent } from '../../src/network/laws.js';
import { parseCircuit } from '../../src/files/circuit-file.js';

const number = (text: string) => parseFloat(text);
/** Watts that a filament draws at these volts, at an edge of its spread. */
const drawn = (watts: number, rated: number, volts: number, edge: number) =>
  volts * lawCurrent(filamentLaw(watts, rated), volts, edge);

/**
 * UN R37 objective values: category, nominal volts, filament, rated watts, test volts, most watts there. PY21/5W from
 * ECE/TRANS/WP.29/GRE/2012/34; the others from memory.
 */
const R37 = [
  ['PY21/5W', 12, '54', 21, 13.5, 26.5],
  ['PY21/5W', 12, '58', 5, 13.5, 6.6],
  ['P21/5W', 12, '54', 21, 13.5, 26.5],
  ['P21/5W', 12, '58', 5, 13.5, 6.6],
  ['P21W', 12, '1', 21, 13.5, 26.5],
  ['P21W', 24, '1', 21, 28, 29.7],
  ['PY21W', 12, '1', 21, 13.5, 26.5],
  ['W21W', 12, '1', 21, 13.5, 26.5],
  ['R10W', 12, '1', 10, 13.5, 11],
  ['R5W', 12, '1', 5, 13.5, 5.5],
  ['W5W', 12, '1', 5, 13.5, 5.5],
  ['C5W', 12, '1', 5, 13.5, 5.5],
  ['T4W', 12, '1', 4, 13.5, 4.4],
  ['W16W', 12, '1', 16, 13.5, 21.35],
  ['H1', 12, '1', 55, 13.2, 68],
  ['H1', 24, '1', 70, 28, 84],
  ['H4', 12, '56a', 60, 13.2, 75],
  ['H4', 12, '56b', 55, 13.2, 68],
  ['H4', 24, '56a', 75, 28, 85],
  ['H4', 24, '56b', 70, 28, 80],
  ['H7', 12, '1', 55, 13.2, 58],
  ['H7', 24, '1', 70, 28, 75],
] as const;

describe('lamps of UN R37', () => {
  it.each(R37)(
    'when %s of %d V, filament %s, is looked up then it has %d W and may draw what R37 allows at %d V: %d W',
    (category, nominal, filament, watts, testVolts, most) => {
      const keys = madeFor(inCatalogue('lamp', category)!, nominal)!;
      const rated = keys.filaments?.[filament] ?? keys.watts;
      expect(number(rated!)).toBe(watts);
      // A lamp just within the regulation lies inside the spread that the solver gives a filament.
      expect(drawn(watts, number(keys.volts!), testVolts, +1)).toBeGreaterThanOrEqual(0.995 * most);
      expect(drawn(watts, number(keys.volts!), testVolts, -1)).toBeLessThanOrEqual(most);
    },
  );
});

describe('blade fuses of ISO 8820-3', () => {
  it('when their colours are asked for then they are those printed in trade tables', () => {
    // From trade tables: 7.5 brown, 10 red, 15 blue, 20 yellow, 25 clear, 30 green; 5 light brown from memory.
    const colours = new Map(BLADE_FUSES.map(({ amps, colour }) => [amps, colour]));
    expect([5, 7.5, 10, 15, 20, 25, 30].map((amps) => colours.get(amps))).toEqual([
      'light brown',
      'brown',
      'red',
      'blue',
      'yellow',
      'clear',
      'green',
    ]);
  });

  it.each(BLADE_FUSES.map(({ amps, coldOhms }) => [amps, coldOhms] as const))(
    'when a good %d A fuse of %d ohm is measured then the solver takes it for good',
    (amps, coldOhms) => {
      const { elements, sites } = networkWith(`F1: {type: fuse, rating: ${amps} A, place: here}`);
      const { law } = elements[sites.get('F1:link')!]!;
      if (law.kind !== 'fuse') throw new Error('no fuse');
      // Cold ohms: one typical maker's sheet, from memory.
      expect(law.low).toBeLessThanOrEqual(coldOhms);
      expect(law.high).toBeGreaterThanOrEqual(coldOhms);
    },
  );
});

describe('wires', () => {
  // IEC 60228 class 5, most ohms of plain copper at 20 C, mohm/m.
  const CLASS_5 = [
    [0.5, 39],
    [0.75, 26],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
    [25, 0.78],
    [35, 0.554],
    [50, 0.386],
    [70, 0.272],
    [95, 0.206],
  ] as const;

  it.each(CLASS_5)(
    'when a wire has %d mm2 then its ohms agree with the %d mohm/m of IEC 60228',
    (mm2, most) => {
      const size = WIRE_SIZES.find((one) => one.mm2 === mm2)!;
      // The road-vehicle standard (from memory) allows 4 to 6 % less than class 5.
      expect(1000 * size.mostOhmsPerMetre).toBeLessThanOrEqual(most);
      expect(1000 * size.mostOhmsPerMetre).toBeGreaterThan(0.93 * most);
      // Resistivity times length over size is what the solver takes, and 1.35 times that the most it still takes for good.
      expect(1000 * wireOhms(mm2, 1)).toBeLessThan(most);
      expect(1000 * wireOhms(mm2, 1) * 1.35).toBeGreaterThan(most);
    },
  );

  // Solid copper, 20 C, ohm/km: AWG tables (UL 1581 maxima).
  it.each([
    ['8', 2.102],
    ['10', 3.343],
    ['12', 5.31],
    ['14', 8.45],
    ['16', 13.5],
    ['18', 21.4],
    ['20', 33.9],
    ['22', 54.3],
  ] as const)(
    'when a wire is AWG %s then it has the %d ohm/km of the table less its margin',
    (gauge, most) => {
      const ohms = 1000 * wireOhms(awgToMm2(gauge), 1);
      expect(ohms).toBeLessThan(most);
      expect(ohms).toBeGreaterThan(0.97 * most);
    },
  );
});

describe('batteries', () => {
  it('when a car battery is warm then it has the usual 4 to 10 mohm, and fewer the larger it is', () => {
    const cars = ['44 Ah', '60 Ah', '70 Ah', '80 Ah', '95 Ah'].map((id) =>
      number(madeFor(inCatalogue('battery', id)!, 12)!.ohms as string),
    );
    // 4 to 10 mohm: common practice, no source; the smallest may have a little less than the largest in use.
    for (const ohms of cars) {
      expect(ohms).toBeGreaterThanOrEqual(0.003);
      expect(ohms).toBeLessThanOrEqual(0.01);
    }
    expect([...cars].sort((a, b) => b - a)).toEqual(cars);
  });

  it('when a battery gives its cold current at -18 C then at least 7.5 V are left, as EN 50342-1 asks', () => {
    const { ohms, volts } = madeFor(inCatalogue('battery', '60 Ah')!, 12)!;
    // Twice the warm ohms; 540 A are printed on it. The catalogue gives ohms to a tenth of a milliohm.
    expect(number(volts!) - 540 * 2 * number(ohms as string)).toBeCloseTo(7.5, 1);
  });
});

describe('relays', () => {
  it('when a 12 V relay is looked up then coil and pull-in are those of data sheets', () => {
    // Common data sheets, from memory: 80 to 110 ohm, pull-in at most 8 V, drop-out at least 1.2 V.
    for (const id of ['ISO mini', 'ISO mini change-over', 'ISO micro', 'ISO micro change-over']) {
      const keys = madeFor(inCatalogue('relay', id)!, 12)!;
      expect(number(keys.coil!)).toBeGreaterThanOrEqual(80);
      expect(number(keys.coil!)).toBeLessThanOrEqual(110);
      expect(keys['pull-in']).toBe('8 V');
      expect(keys['drop-out']).toBe('1.2 V');
    }
  });
});

it('when an entry has no source then it is marked demo', () => {
  for (const { id, source, demo } of CATALOGUE)
    expect(demo, id).toBe(source === 'common practice, no source');
});

function networkWith(part: string) {
  const checked = parseCircuit(`circuit: one
title: One part between the posts
nominal: 12 V
places: {here: 1 min}
parts:
  G1: {type: battery, place: here}
  ${part}
  H1: {type: lamp, catalogue: R5W, place: here}
wires:
  - {from: G1.30, to: F1.1, size: 4 mm2, length: 1 m}
  - {from: F1.2, to: H1.1, size: 4 mm2, length: 1 m}
  - {from: H1.31, to: G1.31, size: 4 mm2, length: 1 m}
`);
  if ('problems' in checked) throw new Error(checked.problems[0]!.message);
  return compile(checked.circuit);
}
