/** Questions → circuit file: every way of answering gives a file that is in order, and nonsense is asked again. */
import { describe, expect, test } from 'vitest';
import { parseLoads } from '../../../src/circuit/own/loads.js';
import { answerAll, QUESTIONS } from '../../../src/circuit/own/questions.js';
import { ownCircuitText } from '../../../src/circuit/own/file-text.js';
import { sizeFor, carries, SIZES } from '../../../src/circuit/wire-capacity.js';
import type { Wish } from '../../../src/circuit/own/wish.js';
import { loadsOf } from '../../../src/circuit/circuit.js';
import { createWorkbench } from '../../../src/diagnosis/workbench.js';
import { planOf } from '../../../src/circuit/downhill.js';
import { adviseThinForFuse } from '../../../src/planning/advice/fuse-and-wire.js';
import { adviseUnfused } from '../../../src/planning/advice/unfused.js';
import { adviseThin } from '../../../src/planning/advice/voltage-drop.js';
import { loaded } from '../shelf.js';

function wish(answers: Readonly<Record<string, string>>): Wish {
  const read = answerAll(new Map(Object.entries(answers)));
  if ('wrong' in read) throw new Error(`${read.flag}: ${read.wrong}`);
  return read.value;
}

const pick = <T>(list: readonly T[], at: number): T => list[at % list.length]!;

/** Every pair of side and way, with the other answers going round. */
const WAYS = ['switch', 'relay', 'module'].flatMap((through) =>
  ['feed', 'ground'].flatMap((side) =>
    ['none', 'loom', 'loads', 'both'].flatMap((connectors, c) =>
      ['always', 'key'].map((live, l) => ({
        through,
        side,
        connectors,
        live,
        loads: pick(
          [
            'lamp 21 W',
            '2 stop lamps P21W, high lamp 16 W',
            'radiator fan 20 A',
            '2 horns 5 A, buzzer, door lock 2 A, heater 100 W, LED strip 3 W',
          ],
          c + 2 * l,
        ),
        also: pick(['none', 'horn 5 A', 'fan 4 A'], c + l),
        volts: pick(['12', '24'], c + through.length),
        switch: pick(['light switch', 'brake pedal', 'horn button', 'key'], c + l),
        positions: pick(['off, on', 'rest, low, high'], c),
        length: pick(['1 m', '4 m', '12 m'], c + l),
      })),
    ),
  ),
);

test('when any way of answering is taken then the file is in order, protected, thick enough and holds every load', () => {
  for (const [i, answers] of WAYS.entries()) {
    const made = wish(answers);
    const { circuit } = loaded(ownCircuitText(made, 'own'));
    const title = JSON.stringify(answers);
    const names = [...circuit.parts.values()].map(({ label }) => label);
    for (const { name } of made.loads) expect(names, title).toContain(name);
    const plan = planOf(circuit);
    expect(adviseUnfused(plan), title).toEqual([]);
    expect(adviseThinForFuse(plan), title).toEqual([]);
    if (i % 3 > 0) continue;
    const thin = adviseThin(createWorkbench(circuit), plan);
    expect(thin, `${title} ${thin.map(({ message }) => message).join()}`).toEqual([]);
  }
});

test('when it is made then every load runs as soon as its control is worked, and none at rest', () => {
  for (const answers of WAYS.filter((_, i) => i % 5 === 0)) {
    const { circuit } = loaded(ownCircuitText(wish(answers), 'own'));
    const bench = createWorkbench(circuit);
    const at = (on: boolean): ReadonlyMap<string, number> => {
      const controls = new Map(
        [...circuit.controls.values()].map(({ id, positions }) => [id, positions[on ? 1 : 0]!]),
      );
      const setUp = {
        controls,
        engine: 'off',
        unplugged: new Set(),
        out: new Set(),
        jumpers: [],
        fitted: new Map(),
        lamps: new Set(),
        rested: 0,
      } as const;
      const [outcome] = bench
        .solver([])
        .solve({ present: bench.presence(setUp as never), faults: [], blown: 0 });
      return new Map(
        [...bench.network.loads.values()].map(({ id, element, ratedVolts }) => {
          const { a, b } = bench.network.elements[element]!;
          return [id, Math.abs(outcome!.volts[a]! - outcome!.volts[b]!) / ratedVolts];
        }),
      );
    };
    for (const [id, share] of at(true))
      expect(share, `${JSON.stringify(answers)} ${id}`).toBeGreaterThan(0.85);
    for (const [id, share] of at(false)) expect(share, `${JSON.stringify(answers)} ${id}`).toBeLessThan(0.1);
  }
});

test('when a person reads the file then every section says what it is', () => {
  const text = ownCircuitText(
    wish({
      title: 'Work lamps: "left" & right'.replace(/[:"&]/g, ''),
      loads: '2 work lamps 55 W, buzzer',
      through: 'module',
    }),
    'own',
  );
  const lines = text.split('\n');
  for (const key of ['controls:', 'places:', 'parts:', 'wires:']) {
    const at = lines.indexOf(key);
    expect(at).toBeGreaterThan(0);
    expect(lines[at - 1]).toMatch(/^# /);
  }
  for (const line of lines.filter((one) => one.startsWith('  - {id: W'))) expect(line).toMatch(/ # \S/);
  for (const line of lines) expect(line.length, line).toBeLessThanOrEqual(150);
});

describe('loads as people say them', () => {
  test.each([
    ['2 stop lamps P21W', ['left stop lamp', 'right stop lamp'], 'catalogue', 'P21W'],
    ['horn 5 A', ['horn'], 'amps', '5 A'],
    ['LED bar 36 W', ['LED bar'], 'watts', '36 W'],
    ['3x marker lights 5 W', ['marker light 1', 'marker light 2', 'marker light 3'], 'watts', '5 W'],
    ['lamp 7,5 W', ['lamp'], 'watts', '7.5 W'],
    ['radiator fan', ['radiator fan'], 'amps', '6 A'],
    ['lamp 2', ['lamp 2'], 'watts', '21 W'],
    ['seat heater 90 W', ['seat heater'], 'watts', '90 W'],
  ])('when "%s" is typed then it is understood', (typed, names, key, value) => {
    const read = parseLoads(typed, 12);
    if ('wrong' in read) throw new Error(read.wrong);
    expect(read.value.map(({ name }) => name)).toEqual(names);
    for (const { figure } of read.value) expect(figure).toEqual([key, value]);
  });

  test('when two have one name then they are told apart', () => {
    const read = parseLoads('lamp 5 W, lamp 21 W and horn', 12);
    expect('value' in read && read.value.map(({ name }) => name)).toEqual(['lamp 1', 'lamp 2', 'horn']);
  });

  test.each([
    '',
    ',',
    '21 W',
    'what',
    '0 lamps',
    '99 lamps 5 W',
    'lamp 21 kg',
    'winch 5 kW',
    'lamp \u001b[2J 5 W',
  ])('when "%s" is typed then it is refused with an example', (typed) => {
    const read = parseLoads(typed, 12);
    expect('wrong' in read && read.mend).toMatch(/\S/);
  });
});

describe('answers to the questions', () => {
  const question = (flag: string): (typeof QUESTIONS)[number] => QUESTIONS.find((one) => one.flag === flag)!;

  test.each([
    ['volts', '48'],
    ['volts', 'twelve'],
    ['through', 'r2'],
    ['side', 'both'],
    ['positions', 'on'],
    ['positions', 'on, ON'],
    ['helper', 'maybe'],
    ['fuse', '10 V'],
    ['fuse', '-5'],
    ['grounds', '0'],
    ['grounds', '9'],
    ['length', '4 kg'],
    ['size', '1000 mm2'],
    ['title', '{a: b}'],
    ['switch', ''],
    ['also', 'horn 5 A, fan 2 A'],
  ])('when %s is answered with "%s" then it is refused, with what to write', (flag, typed) => {
    const read = question(flag).parse(typed, { loads: [], volts: 12 });
    expect('wrong' in read && `${read.wrong} / ${read.mend}`).toMatch(/\S \/ \S/);
  });

  test.each([
    ['volts', '24', 24],
    ['through', 'r', 'relay'],
    ['side', 'Ground', 'ground'],
    ['fuse', '7,5', 7.5],
    ['fuse', '15 A', 15],
    ['length', '250 cm', 2.5],
    ['size', '1.5', 1.5],
    ['size', 'AWG 16', 1.309],
  ])('when %s is answered with "%s" then it counts', (flag, typed, value) => {
    const read = question(flag).parse(typed, {});
    expect('value' in read).toBe(true);
    if ('value' in read && typeof value === 'number') expect(read.value).toBeCloseTo(value, 2);
    else if ('value' in read) expect(read.value).toBe(value);
  });

  test('when Enter is all that is typed then there is a circuit', () => {
    const { circuit } = loaded(ownCircuitText(wish({}), 'own'));
    expect([...circuit.parts.values()].flatMap(loadsOf)).toEqual(['H1', 'H2']);
  });
});

test('when a wire is chosen for a fuse then it carries what the fuse lets through, and the next thinner one does not', () => {
  for (const amps of [5, 7.5, 10, 15, 20, 25, 30, 40]) {
    const size = sizeFor(amps);
    expect(carries(size)).toBeGreaterThanOrEqual(amps);
    const thinner = SIZES[SIZES.indexOf(size) - 1];
    if (thinner !== undefined) expect(carries(thinner)).toBeLessThan(amps);
  }
});
