/**
 * Volts across every load with all loads on, by an elimination of its own: wires by copper, contacts 10 mΩ, loads as the
 * resistors of their rating. Independent of src/network on purpose: it checks the drawings, not the solver.
 */
import type { Circuit, Part } from '../../src/circuit/circuit.js';
import { netsOf } from '../../src/circuit/nets.js';

/** Load terminal → volts across the load, every contact closed. */
export function loadedVolts(circuit: Circuit): Map<string, number> {
  const battery = [...circuit.parts.values()].find((part) => part.type === 'battery') as Extract<
    Part,
    { type: 'battery' }
  >;
  const numbers = new Map<string, number>();
  const node = (point: string) => {
    if (!numbers.has(point)) numbers.set(point, numbers.size);
    return numbers.get(point)!;
  };
  const links: { a: number; b: number; siemens: number }[] = [];
  const link = (a: string, b: string, ohms: number) =>
    links.push({ a: node(a), b: node(b), siemens: 1 / ohms });
  node(`${battery.id}.31`);
  for (const wire of circuit.wires) link(wire.from, wire.to, (0.0172 * wire.metres) / wire.mm2);
  for (const part of circuit.parts.values()) {
    if (part.type === 'ground') link(part.id, 'body', 0.005);
    if (part.type !== 'connector') continue;
    for (const pin of part.pins) {
      const [harness, component] = [`${part.id}.${pin}h`, `${part.id}.${pin}c`];
      // A spare pin has no wires and would only float.
      if (numbers.has(harness)) link(harness, component, 0.005);
    }
  }
  const loads: [string, string][] = [];
  for (const branch of netsOf(circuit)!.branches) {
    const coil = branch.part.type === 'relay' && branch.kind === 'load' ? branch.part.coilOhms : undefined;
    const ohms = branch.kind === 'load' ? (coil ?? circuit.nominalVolts / branch.amps) : 0.01;
    link(...(branch.ends as [string, string]), ohms);
    if (branch.kind === 'load') loads.push([...branch.ends]);
  }
  const volts = solve(numbers.size, links, node(`${battery.id}.30`), circuit.nominalVolts);
  return new Map(loads.map(([feed, back]) => [feed, volts[node(feed)]! - volts[node(back)]!]));
}

/** Node 0 is the reference; `plus` is held at `volts`. Gauss with partial pivoting. */
function solve(
  count: number,
  links: readonly { a: number; b: number; siemens: number }[],
  plus: number,
  volts: number,
): number[] {
  const rows = Array.from({ length: count }, () => new Array<number>(count + 1).fill(0));
  for (const { a, b, siemens } of links) {
    for (const [one, other] of [
      [a, b],
      [b, a],
    ] as const) {
      rows[one]![one]! += siemens;
      rows[one]![other]! -= siemens;
    }
  }
  for (const [held, value] of [
    [0, 0],
    [plus, volts],
  ] as const) {
    rows[held] = rows[held]!.map((_, column) => (column === held ? 1 : column === count ? value : 0));
  }
  for (let column = 0; column < count; column++) {
    let pivot = column;
    for (let row = column; row < count; row++) {
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    }
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    for (let row = 0; row < count; row++) {
      const factor = row === column ? 0 : rows[row]![column]! / rows[column]![column]!;
      if (factor === 0) continue;
      for (let at = column; at <= count; at++) rows[row]![at]! -= factor * rows[column]![at]!;
    }
  }
  return rows.map((row, index) => row[count]! / row[index]!);
}
