/** A small circuit with one of every kind of load, for tests of lines and sessions. Demo data. */
import type { Circuit } from '../../src/circuit/circuit.js';
import { parseCircuit } from '../../src/files/circuit-file.js';
import { parseLine, type Line } from '../../src/session/parse-line.js';
import type { Event, Recorded } from '../../src/session/events.js';

export const BENCH_YAML = `# Demo: one of every load.
circuit: bench
title: Bench
nominal: 12 V
controls:
  key: [off, on]
  gear: [neutral, reverse]
  turn signal: [off, left, right]
places: {bench: 1 min}
parts:
  G1: {type: battery, name: battery, place: bench}
  GP1: {type: ground, name: main ground, place: bench}
  SP1: {type: splice, name: feed bar, place: bench}
  F4: {type: fuse, name: lamp fuse, rating: 15 A, place: bench}
  S1: {type: switch, name: gear switch, control: gear, place: bench, contacts: [{between: [1, 2], closed: [reverse]}]}
  S2: {type: switch, name: key switch, control: key, place: bench, contacts: [{between: [30, 15], closed: [on]}]}
  S3: {type: switch, name: signal switch, control: turn signal, place: bench, contacts: [{between: [49a, L], closed: [left]}, {between: [49a, R], closed: [right]}]}
  X3: {type: connector, name: lamp connector, pins: [1, 2], place: bench}
  SP2: {type: splice, name: lamp splice, place: bench}
  H1: {type: lamp, name: left lamp, watts: 21 W, place: bench}
  H2: {type: lamp, name: tail lamp, filaments: {54: 21 W, 58: 5 W}, place: bench}
  H3: {type: lamp, name: right signal, watts: 21 W, place: bench}
  B1: {type: horn, name: horn, amps: 5 A, place: bench}
  K1: {type: relay, name: relay, place: bench}
  M1: {type: motor, name: pump, amps: 4 A, place: bench}
wires:
  - {from: G1.30, to: SP1, size: 4 mm2, length: 1 m}
  - {from: G1.31, to: GP1, size: 4 mm2, length: 1 m}
  - {from: SP1, to: S2.30, size: 2.5 mm2, length: 1 m}
  - {from: S2.15, to: F4.1, size: 2.5 mm2, length: 1 m}
  - {from: F4.2, to: S1.1, size: 1 mm2, length: 1 m}
  - {from: S1.2, to: X3.1h, size: 1 mm2, length: 1 m}
  - {from: X3.1c, to: SP2, size: 1 mm2, length: 1 m}
  - {from: SP2, to: H1.1, size: 1 mm2, length: 1 m}
  - {from: H1.31, to: X3.2c, size: 1 mm2, length: 1 m}
  - {from: X3.2h, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP2, to: H2.54, size: 1 mm2, length: 1 m}
  - {from: SP1, to: H2.58, size: 1 mm2, length: 1 m}
  - {from: H2.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP2, to: K1.86, size: 1 mm2, length: 1 m}
  - {from: K1.85, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP1, to: K1.30, size: 1 mm2, length: 1 m}
  - {from: K1.87, to: B1.1, size: 1 mm2, length: 1 m}
  - {from: B1.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP1, to: S3.49a, size: 1 mm2, length: 1 m}
  - {from: S3.L, to: M1.1, size: 1 mm2, length: 1 m}
  - {from: M1.2, to: GP1, size: 1 mm2, length: 1 m}
  - {from: S3.R, to: H3.1, size: 1 mm2, length: 1 m}
  - {from: H3.31, to: GP1, size: 1 mm2, length: 1 m}
`;

export const bench: Circuit = (() => {
  const loaded = parseCircuit(BENCH_YAML);
  if ('problems' in loaded) throw new Error(loaded.problems.map((problem) => problem.message).join('; '));
  return loaded.circuit;
})();

/** The events of the lines, recorded one after the other; throws on a line that is no event. */
export function recordLines(
  lines: readonly string[],
  recorded: readonly Recorded[] = [],
): readonly Recorded[] {
  const all = [...recorded];
  for (const line of lines) {
    for (const event of eventsOf(parseLine(line, bench, all), line))
      all.push({ number: all.length + 1, at: '', event });
  }
  return all;
}

export function eventsOf(parsed: Line, line: string): readonly Event[] {
  if (parsed.kind === 'events') return parsed.events;
  throw new Error(`${line}: ${parsed.kind === 'error' ? `${parsed.message} (${parsed.mend})` : parsed.kind}`);
}
