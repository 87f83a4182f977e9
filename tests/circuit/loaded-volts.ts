/**
 * The fewest volts across every load that is on, over all positions of controls and relays, by an elimination of its own:
 * wires by copper, contacts 10 mΩ (0.5 mΩ on battery cables), loads as the resistors of their rating; what lies in series on
 * purpose (resistor packs, senders, flashers) counts as a wire. Independent of src/network on purpose: it checks the drawings, not
 * the solver.
 */
import type { Circuit, Part } from '../../src/circuit/circuit.js';
import { netsOf, type Branch } from '../../src/circuit/nets.js';

type Link = { a: number; b: number; siemens: number };

/** Load terminal → volts across the load, the least of all states in which it has more than half the system's volts. */
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
  const linkOf = (a: string, b: string, ohms: number): Link => ({
    a: node(a),
    b: node(b),
    siemens: 1 / ohms,
  });
  const cables = new Set(circuit.wires.filter(({ mm2 }) => mm2 >= 25).flatMap(({ from, to }) => [from, to]));
  const heavy = (...points: string[]) => points.some((point) => cables.has(point));
  node(`${battery.id}.31`);
  const fixed = circuit.wires.map((wire) => linkOf(wire.from, wire.to, (0.0172 * wire.metres) / wire.mm2));
  for (const part of circuit.parts.values()) {
    if (part.type === 'ground') fixed.push(linkOf(part.id, 'body', heavy(part.id) ? 0.0005 : 0.005));
    if (part.type !== 'connector') continue;
    for (const pin of part.pins) {
      const [harness, component] = [`${part.id}.${pin}h`, `${part.id}.${pin}c`];
      // A spare pin has no wires and would only float.
      if (numbers.has(harness)) fixed.push(linkOf(harness, component, 0.005));
    }
  }
  const { branches } = netsOf(circuit)!;
  const lowest = new Map<string, number>();
  for (const state of statesOf(circuit, branches)) {
    const links = branches.flatMap((branch) => {
      const [a, b] = branch.ends;
      if (branch.kind === 'contact' && !branch.closed.includes(state.get(branch.control)!))
        return [linkOf(a, b, 1e9)];
      if (branch.kind === 'passive')
        return [linkOf(a, b, state.get(`diode:${branch.part.id}`) === 'blocks' ? 1e9 : 0.001)];
      if (branch.kind !== 'load') return [linkOf(a, b, heavy(a, b) ? 0.0005 : 0.01)];
      const coil = branch.part.type === 'relay' ? branch.part.coilOhms : undefined;
      return [linkOf(a, b, coil ?? circuit.nominalVolts / branch.amps)];
    });
    const volts = solve(numbers.size, [...fixed, ...links], node(`${battery.id}.30`), circuit.nominalVolts);
    const point = (name: string) => volts[node(name)]!;
    if (!branches.every((branch) => isSo(branch, state, point, circuit.nominalVolts))) continue;
    for (const { kind, ends, part } of branches) {
      // Nobody watches what a module or a flasher draws for itself.
      if (kind !== 'load' || part.type === 'module' || part.type === 'flasher') continue;
      const across = Math.abs(volts[node(ends[0])]! - volts[node(ends[1])]!);
      if (across > circuit.nominalVolts / 2)
        lowest.set(ends[0], Math.min(across, lowest.get(ends[0]) ?? Infinity));
    }
  }
  return lowest;
}

/** Whether a relay and a diode stand as their volts have it. */
function isSo(
  { part, kind, ends }: Branch,
  state: ReadonlyMap<string, string>,
  volts: (point: string) => number,
  nominal: number,
): boolean {
  const forward = volts(ends[0]) - volts(ends[1]);
  if (part.type === 'diode')
    return state.get(`diode:${part.id}`) === 'blocks' ? forward < 0.7 : forward > -1e-9;
  if (part.type !== 'relay' || kind !== 'load') return true;
  const share = Math.abs(forward) / nominal;
  return state.get(`relay:${part.id}`) === 'on' ? share > 0.5 : share < 0.6;
}

/** Every combination of control positions, of relays at rest and pulled in, of diodes that conduct and block. */
function statesOf(circuit: Circuit, branches: readonly Branch[]): ReadonlyMap<string, string>[] {
  const moving = new Set(
    branches.flatMap(({ kind, control, part }) =>
      kind === 'contact' ? [control] : part.type === 'diode' ? [`diode:${part.id}`] : [],
    ),
  );
  return [...moving].reduce<ReadonlyMap<string, string>[]>(
    (states, control) => {
      const positions =
        circuit.controls.get(control)?.positions ??
        (control.startsWith('diode:') ? ['conducts', 'blocks'] : ['off', 'on']);
      return states.flatMap((state) => positions.map((position) => new Map([...state, [control, position]])));
    },
    [new Map()],
  );
}

/** Node 0 is the reference; `plus` is held at `volts`. Gauss with partial pivoting. */
function solve(count: number, links: readonly Link[], plus: number, volts: number): number[] {
  // What hangs on nothing would have any volts at all.
  const rows = Array.from({ length: count }, (_, own) =>
    Array.from({ length: count + 1 }, (__, column): number => (column === own ? 1e-12 : 0)),
  );
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
