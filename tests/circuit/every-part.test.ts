import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Part, PartType } from '../../src/circuit/circuit.js';
import { loadsOf, terminalsOf } from '../../src/circuit/circuit.js';
import { resolvePoint } from '../../src/circuit/points.js';
import { partSchemas } from '../../src/circuit/schema-parts.js';
import { parseCircuit } from '../../src/files/circuit-file.js';

const source = readFileSync(new URL('every-part.yaml', import.meta.url), 'utf8');
const checked = parseCircuit(source);
if ('problems' in checked) throw new Error(checked.problems.map(({ message }) => message).join('\n'));
const { circuit, advice } = checked;
const part = <T extends PartType>(type: T) =>
  [...circuit.parts.values()].find((one): one is Extract<Part, { type: T }> => one.type === type)!;

describe('a circuit with one of every part', () => {
  it('when it is loaded then every kind the schema knows is in it and nothing is advised', () => {
    const kinds = new Set([...circuit.parts.values()].map(({ type }) => type));
    expect([...kinds].sort()).toEqual(Object.keys(partSchemas).sort());
    expect(advice.map(({ message }) => message)).toEqual([]);
  });

  it.each<[PartType, string[]]>([
    ['alternator', ['B+', 'D+']],
    ['fusible link', ['1', '2']],
    ['breaker', ['1', '2']],
    ['flasher', ['49', '49a', '31']],
    ['LED lamp', ['1', '31']],
    ['buzzer', ['1', '31']],
    ['heater', ['1', '2']],
    ['solenoid', ['1', '2']],
    ['load', ['1', '31']],
    ['resistor pack', ['1', '2', '3']],
    ['sender', ['1', '2']],
    ['thermistor', ['1', '2']],
    ['coupling', []],
    ['module', ['30', '31', '5', '2', '3', '7', '8', '10', '11']],
  ])('when a %s is asked for its terminals then they are %j', (type, terminals) => {
    expect(terminalsOf(part(type))).toEqual(terminals);
  });

  it('when loads are listed then all that can be seen, heard or felt are among them', () => {
    const watched = [...circuit.parts.values()]
      .filter((one) => loadsOf(one).length > 0)
      .map(({ type }) => type);
    expect([...new Set(watched)].sort()).toEqual(
      ['LED lamp', 'buzzer', 'heater', 'horn', 'lamp', 'load', 'motor', 'relay', 'solenoid'].sort(),
    );
  });

  it('when bare metal of a frame is probed then its name is a point, in any case', () => {
    expect(resolvePoint(circuit, 'Trailer')).toEqual({ point: 'trailer' });
  });

  it('when values are left out then the usual ones stand in', () => {
    expect(part('alternator').volts).toBeCloseTo(14.2, 6);
    expect(part('breaker').reset).toBe('automatic');
    expect(part('sender').tolerance).toBe(0.1);
    expect(part('motor').stallAmps).toBe(25);
    const module = part('module');
    expect(module.outputs.map(({ duty }) => duty)).toEqual([1, 0.6]);
    expect(module.outputs[1]!.on).toBeUndefined();
    expect(module.inputs[0]).toMatchObject({ pull: 'up', pullOhms: 1000, highVolts: 3.5, lowVolts: 1.5 });
  });

  it('when the system has 24 V then usual volts and ohms follow', () => {
    const other = parseCircuit(source.replace('nominal: 12 V', 'nominal: 24 V').replace('stall: 25 A, ', ''));
    if ('problems' in other) throw new Error(other.problems[0]!.message);
    const of = (type: PartType) => [...other.circuit.parts.values()].find((one) => one.type === type)!;
    expect((of('alternator') as Extract<Part, { type: 'alternator' }>).volts).toBeCloseTo(28.4, 6);
    expect(of('relay')).toMatchObject({ pullInVolts: 16, coilOhms: 340, contactOhms: 0.001 });
    expect(of('motor')).toMatchObject({ stallAmps: 30, volts: 24 });
  });

  it('when a lamp on a high-side output goes back to the supply then no current can go through it', () => {
    const wrong = parseCircuit(source.replace('{from: H4.31, to: GP1', '{from: H4.31, to: SP2'));
    const told = 'problems' in wrong ? wrong.problems : [];
    expect(told.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^no current can go through lamp H4 \(H4\.1\)/),
    ]);
  });
});
