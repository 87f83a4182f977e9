/**
 * Every instrument of the trade, attached as the reasoner attaches it: healthy and with every fault of a circuit at three
 * severities, at points and in set-ups that take turns.
 */
import { terminalsOf } from '../../src/circuit/circuit.js';
import { type Probe, probe } from '../../src/diagnosis/observe.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { VOLTMETER } from '../../src/network/meters.js';
import { BATTERY_NEGATIVE, BODY } from '../../src/network/network.js';
import type { AppliedFault, Variant } from '../../src/network/solver-types.js';
import type { Reading } from '../../src/session/events.js';
import type { SetUp } from '../../src/session/setup.js';
import { phasesOf, type SpiceCase, spiceParts } from './netlist.js';
import type { TableReading } from './reading-table.js';
import { faultsIn, setUps, setUpWords, severities } from './table-circuits.js';

/** A way to read, at the places that turn number `turn` brings round. */
interface Instrument {
  readonly row: string;
  readonly ask: (bench: Workbench, setUp: SetUp, turn: number) => readonly [SetUp, Reading] | undefined;
}

const BLANK = { value: 0, step: 0.01 };

function nth<T>(list: readonly T[], turn: number): T {
  return list[turn % list.length]!;
}

function pointsOf({ network }: Workbench): string[] {
  return [...network.points.keys()];
}

/** Red somewhere; black at battery negative in two of three turns, otherwise anywhere else. */
function pair(bench: Workbench, turn: number): { red: string; black: string } {
  const points = pointsOf(bench);
  const red = nth(points, turn * 7 + 2);
  const black = turn % 3 === 0 ? nth(points, turn * 5 + 1) : 'bat-';
  return { red, black: black === red ? 'bat-' : black };
}

/** Joints in which an ammeter can be opened. */
function joints({ network }: Workbench): string[] {
  return network.elements
    .filter(({ owner, site }) => owner === 'position' && !site.includes('/'))
    .map(({ site }) => site);
}

function fuses({ circuit }: Workbench): string[] {
  return [...circuit.parts.values()].flatMap(({ id, type }) =>
    type === 'fuse' || type === 'breaker' ? [id] : [],
  );
}

function testLamp(row: string, lamp: 'filament' | 'LED', black: string): Instrument {
  return {
    row,
    ask: (bench, setUp, turn) => [
      setUp,
      { kind: 'test lamp', red: nth(pointsOf(bench), turn * 7 + 3), black, value: 'off', lamp },
    ],
  };
}

const INSTRUMENTS: readonly Instrument[] = [
  {
    row: 'voltmeter',
    ask: (bench, setUp, turn) => [setUp, { kind: 'volts', ...pair(bench, turn), value: BLANK }],
  },
  {
    row: 'voltmeter, low impedance',
    ask: (bench, setUp, turn) => [
      setUp,
      { kind: 'volts', mode: 'low impedance', ...pair(bench, turn), value: BLANK },
    ],
  },
  {
    row: 'voltmeter, test lamp across',
    ask: (bench, setUp, turn) => [
      setUp,
      { kind: 'volts', mode: 'loaded', ...pair(bench, turn), value: BLANK },
    ],
  },
  {
    row: 'ohmmeter',
    ask: (bench, setUp, turn) => [setUp, { kind: 'ohms', ...pair(bench, turn), value: BLANK }],
  },
  {
    row: 'continuity buzzer',
    ask: (bench, setUp, turn) => [setUp, { kind: 'continuity', ...pair(bench, turn), value: 'beep' }],
  },
  {
    row: 'ammeter in line',
    ask: (bench, setUp, turn) => [setUp, { kind: 'amps', at: nth(joints(bench), turn), value: BLANK }],
  },
  {
    row: 'clamp meter',
    ask: (bench, setUp, turn) => [
      setUp,
      { kind: 'clamp', at: nth(bench.circuit.wires, turn).id, value: BLANK },
    ],
  },
  {
    row: 'millivolts over a fuse',
    ask: (bench, setUp, turn) => {
      const fuse = nth(fuses(bench), turn);
      const [feed, load] = terminalsOf(bench.circuit.parts.get(fuse)!);
      return [setUp, { kind: 'volts', red: `${fuse}.${feed}i`, black: `${fuse}.${load}i`, value: BLANK }];
    },
  },
  testLamp('test lamp, filament, to ground', 'filament', 'bat-'),
  testLamp('test lamp, filament, to battery +', 'filament', 'bat+'),
  testLamp('test lamp, LED, to ground', 'LED', 'bat-'),
  testLamp('test lamp, LED, to battery +', 'LED', 'bat+'),
  {
    row: 'test lamp in place of a fuse',
    ask: (bench, setUp, turn) => {
      const part = nth(fuses(bench), turn);
      return [
        { ...setUp, out: new Set([part]), lamps: new Set([part]) },
        { kind: 'fuse lamp', part, value: 'off' },
      ];
    },
  },
  {
    row: 'jumper, read with the voltmeter',
    ask: (bench, setUp, turn) => {
      const switches = [...bench.circuit.parts.values()].flatMap((part) =>
        part.type === 'switch'
          ? part.contacts.map(
              ({ between }) => [`${part.id}.${between[0]}`, `${part.id}.${between[1]}`] as const,
            )
          : [],
      );
      return [
        { ...setUp, jumpers: [nth(switches, turn)] },
        { kind: 'volts', ...pair(bench, turn), value: BLANK },
      ];
    },
  },
];

/** @param every takes one reading in so many */
export function meterReadings(bench: Workbench, every: number): TableReading[] {
  const readings: TableReading[] = [];
  const standing = setUps(bench.circuit);
  const faults = [
    ...standing.map(() => ({ words: 'healthy', applied: undefined })),
    ...bench.faults.flatMap(severities),
  ];
  let number = 0;
  faults.forEach(({ words, applied }, turn) => {
    for (const { row, ask } of INSTRUMENTS) {
      if (number++ % every !== 0) continue;
      const asked = ask(bench, nth(standing, turn), turn);
      if (asked === undefined) continue;
      const [setUp, reading] = asked;
      const what = `${bench.circuit.id}, ${setUpWords(setUp)}, ${words}, ${JSON.stringify(reading)}`;
      const question = probe(bench, setUp, reading)!;
      const list = faultsIn(bench, setUp, applied === undefined ? [] : [applied]);
      readings.push(...outcomes(bench, row, what, question, list));
    }
  });
  return readings;
}

function outcomes(
  bench: Workbench,
  row: string,
  what: string,
  { added: attached, present, quantity }: Probe,
  faults: readonly AppliedFault[],
): TableReading[] {
  const { a, b, scale, magnitude, through } = quantity;
  const { network } = bench;
  if (a === b) return [];
  // A second meter holds the body (see circuit-readings.ts).
  const added = [...attached, { a: BODY, b: BATTERY_NEGATIVE, law: VOLTMETER }];
  const variant: Variant = { present, faults, blown: 0 };
  const solver = bench.solver(added);
  const shown = (value: number) => (magnitude ? Math.abs(value) : value);
  return solver.solve(variant).map((outcome) => {
    const { volts, pulledIn, blown, phases } = outcome;
    const ours =
      through === undefined ? (volts[a]! - volts[b]!) / scale : solver.current(outcome, variant, through);
    const value = (found: Float64Array, spice: SpiceCase) =>
      through === undefined ? (found[a]! - found[b]!) / scale : wireAmps(found, spice, through);
    return {
      row,
      what: `${what}, pulled ${pulledIn} blown ${blown}`,
      ours: shown(ours),
      cases: phasesOf({
        network,
        added,
        variant,
        pulledIn,
        blown,
        nodes: [...new Set([a, b])],
        guess: phases?.on ?? volts,
      }),
      value: (found, spice) => shown(value(found, spice)),
    };
  });
}

/** Amperes in a wire from the volts at its ends and its ohms in the netlist. */
function wireAmps(volts: Float64Array, spice: SpiceCase, wire: number): number {
  const resistor = spiceParts(spice).resistors.get(`re${wire}`);
  if (resistor === undefined) return 0;
  const { a, b } = spice.network.elements[wire]!;
  return (volts[a]! - volts[b]!) / resistor.ohms;
}
