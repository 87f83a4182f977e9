/** A circuit with the newer kinds of parts: a module with inputs, guards of every sort, loads with words of their own. Demo data. */
import type { Circuit } from '../../src/circuit/circuit.js';
import { parseCircuit } from '../../src/files/circuit-file.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { parseLine } from '../../src/session/parse-line.js';

export const KINDS_YAML = `# Demo: newer kinds of parts.
circuit: kinds
title: Kinds
nominal: 12 V
controls:
  key: [off, on]
  button: [released, pressed]
places: {bench: 1 min}
parts:
  G1: {type: battery, place: bench}
  GP1: {type: ground, name: main ground, place: bench}
  SP1: {type: splice, name: feed bar, place: bench}
  S1: {type: switch, name: key switch, control: key, place: bench, contacts: [{between: [30, 15], closed: [on]}]}
  S2: {type: switch, name: button, control: button, place: bench, contacts: [{between: [1, 2], closed: [pressed]}]}
  SP2: {type: splice, name: switched bar, place: bench}
  SP3: {type: splice, name: breaker bar, place: bench}
  SP4: {type: splice, name: standing bar, place: bench}
  F1: {type: fuse, name: left fuse, rating: 10 A, place: bench}
  F2: {type: fuse, name: right fuse, rating: 10 A, place: bench}
  F3: {type: fuse, name: heater fuse, rating: 20 A, place: bench}
  FL1: {type: fusible link, name: link, rating: 60 A, place: bench}
  F9: {type: breaker, name: hand breaker, rating: 20 A, reset: manual, place: bench}
  F10: {type: breaker, name: self breaker, rating: 20 A, place: bench}
  H1: {type: lamp, name: left lamp, watts: 21 W, place: bench}
  H2: {type: lamp, name: right lamp, watts: 21 W, place: bench}
  H3: {type: lamp, name: side lamp, watts: 5 W, place: bench}
  H4: {type: LED lamp, name: LED marker, watts: 3 W, place: bench}
  R1: {type: heater, name: rear window, amps: 10 A, place: bench}
  Y1: {type: solenoid, name: valve, ohms: 12 ohm, place: bench}
  B1: {type: buzzer, name: buzzer, amps: 0.1 A, place: bench}
  A9: {type: load, name: radio, watts: 20 W, place: bench}
  B5: {type: sender, name: level sender, control: button, ohms: {released: 250 ohm, pressed: 20 ohm}, place: bench}
  A1: {type: module, name: body module, place: bench, supply: 30, ground: 31, inputs: {2: {pull: up, reads: {high: released, low: pressed}}, 3: {pull: up, reads: volts}}, outputs: {7: {side: high, on: {2: low}, limit: 8 A}}}
wires:
  - {from: G1.30, to: FL1.1, size: 4 mm2, length: 1 m}
  - {from: FL1.2, to: SP1, size: 4 mm2, length: 1 m}
  - {from: G1.31, to: GP1, size: 4 mm2, length: 1 m}
  - {from: SP1, to: S1.30, size: 2.5 mm2, length: 1 m}
  - {from: S1.15, to: SP2, size: 2.5 mm2, length: 1 m}
  - {from: SP2, to: F1.1, size: 1 mm2, length: 1 m}
  - {from: F1.2, to: H1.1, size: 1 mm2, length: 1 m}
  - {from: H1.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP2, to: F2.1, size: 1 mm2, length: 1 m}
  - {from: F2.2, to: H2.1, size: 1 mm2, length: 1 m}
  - {from: H2.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP2, to: F3.1, size: 2.5 mm2, length: 1 m}
  - {from: F3.2, to: R1.1, size: 2.5 mm2, length: 1 m}
  - {from: R1.2, to: GP1, size: 2.5 mm2, length: 1 m}
  - {from: SP2, to: F9.1, size: 2.5 mm2, length: 1 m}
  - {from: F9.2, to: SP3, size: 2.5 mm2, length: 1 m}
  - {from: SP3, to: H4.1, size: 1 mm2, length: 1 m}
  - {from: H4.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP3, to: Y1.1, size: 1 mm2, length: 1 m}
  - {from: Y1.2, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP3, to: B1.1, size: 1 mm2, length: 1 m}
  - {from: B1.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP1, to: F10.1, size: 2.5 mm2, length: 1 m}
  - {from: F10.2, to: SP4, size: 2.5 mm2, length: 1 m}
  - {from: SP4, to: A9.1, size: 1 mm2, length: 1 m}
  - {from: A9.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: SP4, to: A1.30, size: 1 mm2, length: 1 m}
  - {from: A1.31, to: GP1, size: 1 mm2, length: 1 m}
  - {from: A1.2, to: S2.1, size: 0.5 mm2, length: 1 m}
  - {from: A1.3, to: B5.1, size: 0.5 mm2, length: 1 m}
  - {from: B5.2, to: GP1, size: 0.5 mm2, length: 1 m}
  - {from: S2.2, to: GP1, size: 0.5 mm2, length: 1 m}
  - {from: A1.7, to: H3.1, size: 1 mm2, length: 1 m}
  - {from: H3.31, to: GP1, size: 1 mm2, length: 1 m}
`;

/** The circuit of a text that must be right. */
export function circuitOf(text: string): Circuit {
  const loaded = parseCircuit(text);
  if ('problems' in loaded)
    throw new Error(loaded.problems.map(({ message, mend }) => `${message} (${mend})`).join('; '));
  return loaded.circuit;
}

export const kinds: Circuit = circuitOf(KINDS_YAML);

/** The events of the lines on this circuit, one after the other; throws on a line that is no event. */
export function recordKinds(lines: readonly string[], before: readonly Recorded[] = []): readonly Recorded[] {
  const all = [...before];
  for (const line of lines)
    for (const event of eventsIn(line, all)) all.push({ number: all.length + 1, at: '', event });
  return all;
}

export function eventsIn(line: string, recorded: readonly Recorded[] = []): readonly Event[] {
  const parsed = parseLine(line, kinds, recorded);
  if (parsed.kind === 'events') return parsed.events;
  throw new Error(`${line}: ${parsed.kind === 'error' ? `${parsed.message} (${parsed.mend})` : parsed.kind}`);
}
