/**
 * Readings of a 10 MΩ voltmeter at the terminals of every part: healthy and with every fault mode of that part at three
 * severities, in every position of the controls, in every state in which the network can stand.
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

/** What is read: the parts of one type, or the wires. */
interface Subject {
  readonly row: string;
  readonly ids: ReadonlySet<string>;
  readonly points: readonly string[];
}

/** @param every takes one reading in so many, and the first of each kind of part */
export function partReadings(bench: Workbench, every: number): TableReading[] {
  const readings: TableReading[] = [];
  for (const { row, ids, points } of subjects(bench)) {
    let number = 0;
    const faults = [
      { words: 'healthy', applied: undefined },
      ...bench.faults.filter(({ part }) => ids.has(part)).flatMap(severities),
    ];
    for (const setUp of setUps(bench.circuit)) {
      faults.forEach(({ words, applied }, i) => {
        // Every point of a healthy part; with a fault they take turns.
        const chosen = applied === undefined ? points : [points[(i + number) % points.length]!];
        for (const point of chosen) {
          if (number++ % every !== 0) continue;
          readings.push(
            ...readingsAt(bench, row, setUp, words, applied === undefined ? [] : [applied], point),
          );
        }
      });
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
