/**
 * Readings of a 10 MΩ voltmeter at the terminals of every part: healthy and with every fault mode of that part at three
 * severities, in one position of the controls after the other, in every state in which the network can stand.
 */
import type { Part } from '../../src/circuit/circuit.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import { VOLTMETER } from '../../src/network/meters.js';
import { BATTERY_NEGATIVE, BODY } from '../../src/network/network.js';
import type { AppliedFault, Variant } from '../../src/network/solver-types.js';
import type { SetUp } from '../../src/session/setup.js';
import { phasesOf } from './netlist.js';
import type { TableReading } from './reading-table.js';
import { faultsIn, setUps, setUpWords, severities } from './table-circuits.js';

/** Set-ups in which each severity of a fault is read; where a circuit has more, they take turns. */
const SET_UPS_A_FAULT = 6;

/** What is read: the parts of one type, or the wires. */
interface Subject {
  readonly row: string;
  readonly ids: ReadonlySet<string>;
  readonly points: readonly string[];
}

/** @param every takes one reading in so many, and the first of each kind of part */
export function partReadings(bench: Workbench, every: number): TableReading[] {
  const readings: TableReading[] = [];
  const standing = setUps(bench.circuit);
  for (const { row, ids, points } of subjects(bench)) {
    let number = 0;
    const take = (setUp: SetUp, words: string, applied: readonly AppliedFault[], point: string) => {
      if (number++ % every === 0) readings.push(...readingsAt(bench, row, setUp, words, applied, point));
    };
    for (const setUp of standing) for (const point of points) take(setUp, 'healthy', [], point);
    const faults = bench.faults.filter(({ part }) => ids.has(part)).flatMap(severities);
    let turn = 0;
    for (const { words, applied } of faults) {
      for (let i = 0; i < Math.min(SET_UPS_A_FAULT, standing.length); i++, turn++)
        take(standing[turn % standing.length]!, words, [applied], points[(turn * 3) % points.length]!);
    }
  }
  return readings;
}

function readingsAt(
  bench: Workbench,
  row: string,
  setUp: SetUp,
  fault: string,
  applied: readonly AppliedFault[],
  point: string,
): TableReading[] {
  const { network } = bench;
  const a = network.points.get(point)!;
  const b = BATTERY_NEGATIVE;
  if (a === b) return [];
  // A second meter holds the body (see circuit-readings.ts).
  const added = [
    { a, b, law: VOLTMETER },
    { a: BODY, b, law: VOLTMETER },
  ];
  const variant: Variant = {
    present: bench.presence(setUp),
    faults: faultsIn(bench, setUp, applied),
    blown: 0,
  };
  return bench
    .solver(added)
    .solve(variant)
    .map(({ volts, pulledIn, blown, phases }) => ({
      row,
      what: `${bench.circuit.id}, ${setUpWords(setUp)}, ${fault}, ${point}, pulled ${pulledIn} blown ${blown}`,
      ours: volts[a]! - volts[b]!,
      cases: phasesOf({
        network,
        added,
        variant,
        pulledIn,
        blown,
        nodes: [a],
        guess: phases?.on ?? volts,
      }),
      value: (found) => found[a]!,
    }));
}

function subjects({ circuit, network }: Workbench): Subject[] {
  const byType = new Map<string, Part[]>();
  for (const part of circuit.parts.values()) byType.set(part.type, [...(byType.get(part.type) ?? []), part]);
  const known = (points: readonly string[]) => points.filter((point) => network.points.has(point));
  return [
    ...[...byType].map(([row, parts]) => {
      const ids = new Set(parts.map(({ id }) => id));
      const points = [...network.points.keys()].filter((point) => ids.has(point.split('.')[0]!));
      // A coupling has no point of its own: the frame is read at the studs that stand on it.
      const studs = parts.flatMap((part) =>
        part.type === 'coupling'
          ? [...circuit.parts.values()].flatMap((one) =>
              one.type === 'ground' && one.frame === part.frame ? [one.id] : [],
            )
          : [],
      );
      return { row, ids, points: [...points, ...known(studs)] };
    }),
    {
      row: 'wire',
      ids: new Set(circuit.wires.map(({ id }) => id)),
      points: known(circuit.wires.flatMap(({ from, to }) => [from, to])),
    },
  ];
}
