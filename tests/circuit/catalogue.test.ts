import { describe, expect, it } from 'vitest';
import { CATALOGUE, CATALOGUE_TYPES, inCatalogue, madeFor } from '../../src/circuit/catalogue.js';
import { FUSE_RATINGS } from '../../src/circuit/catalogue-sizes.js';
import { partSchemas } from '../../src/circuit/schema-parts.js';
import { parseCircuit } from '../../src/files/circuit-file.js';

/** A circuit with one part E between the posts; its ends are given. */
function partOf(text: string, ends: readonly [string, string], nominal = 12) {
  const checked = parseCircuit(`circuit: one
title: One part between the posts
nominal: ${nominal} V
places: {here: 1 min}
parts:
  G1: {type: battery, place: here}
  E: {${text}, place: here}
wires:
  - {from: G1.30, to: E.${ends[0]}, size: 50 mm2, length: 1 m}
  - {from: E.${ends[1]}, to: G1.31, size: 50 mm2, length: 1 m}
`);
  if ('problems' in checked) throw new Error(checked.problems.map(({ message }) => message).join('\n'));
  return { part: checked.circuit.parts.get('E')!, advice: checked.advice };
}

describe('a part named by what is printed on it', () => {
  it('when a lamp says P21W then it is a lamp of 21 W at the volts of the system', () => {
    expect(partOf('type: lamp, catalogue: P21W', ['1', '31']).part).toMatchObject({
      filaments: [{ terminal: '1', watts: 21, volts: 12 }],
    });
    expect(partOf('type: lamp, catalogue: P21W', ['1', '31'], 24).part).toMatchObject({
      filaments: [{ terminal: '1', watts: 21, volts: 24 }],
    });
  });

  it('when the name is typed in another case and spacing then it is the same', () => {
    expect(partOf('type: motor, catalogue: Washer-Pump', ['1', '2']).part).toEqual(
      partOf('type: motor, catalogue: washer pump', ['1', '2']).part,
    );
  });

  it('when a file states a value itself then that goes first', () => {
    const { part } = partOf('type: motor, catalogue: washer pump, watts: 60 W', ['1', '2']);
    expect(part).toMatchObject({ amps: 5, drives: 'pump', stallAmps: 12 });
  });

  it('when a 12 V lamp stands in a 24 V system and says so then it is the 12 V one, and advised on', () => {
    const { part, advice } = partOf('type: lamp, catalogue: R5W, volts: 12 V', ['1', '31'], 24);
    expect(part).toMatchObject({ filaments: [{ watts: 5, volts: 12 }] });
    expect(advice.map(({ code }) => code)).toEqual(['other-voltage']);
  });

  const ends = {
    battery: undefined,
    lamp: '31',
    horn: '31',
    buzzer: '31',
    motor: '2',
    heater: '2',
    solenoid: '2',
  };
  const single = CATALOGUE.flatMap((entry) =>
    [...entry.made.keys()].map((volts) => [entry.type, entry.id, volts] as const),
  ).filter(([type]) => type in ends && type !== 'battery');

  it.each(single)('when a %s says %s in a system of %d V then it needs no other value', (type, id, volts) => {
    const keys = madeFor(inCatalogue(type, id)!, volts)!;
    const [feed, ...more] = Object.keys(keys.filaments ?? { 1: '' });
    if (more.length > 0) return;
    const { part, advice } = partOf(`type: ${type}, catalogue: ${id}`, [feed!, ends[type as 'lamp']], volts);
    expect(part.type).toBe(type);
    expect(advice).toEqual([]);
  });
});

describe('the catalogue', () => {
  it('when a type is in it then its schema has the key, and no other has', () => {
    const withKey = Object.entries(partSchemas)
      .filter(([, schema]) => 'catalogue' in schema.properties)
      .map(([type]) => type);
    expect(withKey.sort()).toEqual([...CATALOGUE_TYPES].sort());
  });

  it('when its names are listed then none stands twice in its type', () => {
    const names = CATALOGUE.map(({ type, id }) => `${type} ${id.toLowerCase()}`);
    expect(new Set(names).size).toBe(names.length);
  });

  it('when fuse ratings are listed then they rise and none stands twice', () => {
    expect([...new Set(FUSE_RATINGS)].sort((a, b) => a - b)).toEqual(FUSE_RATINGS);
  });
});
