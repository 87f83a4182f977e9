/**
 * The circuit with everything that is always joined drawn together: wires, splices, plugged connectors and body metal
 * become one net, and what is left between nets are fuses, contacts and loads. Enough for the rules that follow current
 * without solving anything.
 */
import { branchesOf } from './branches.js';
import type { Circuit, Part } from './circuit.js';
import { BODY_METAL, metalOf, wirePointsOf } from './points.js';

export interface Branch {
  readonly kind: 'fuse' | 'contact' | 'load' | 'passive';
  readonly part: Part;
  /** Nets at its two ends, and the points there. */
  readonly a: number;
  readonly b: number;
  readonly ends: readonly [string, string];
  /** Load: rated amperes. */
  readonly amps: number;
  /** Contact: control (or `relay:` and its id) and the positions in which it is closed. */
  readonly control: string;
  readonly closed: readonly string[];
}

export interface Nets {
  readonly count: number;
  readonly plus: number;
  readonly minus: number;
  readonly branches: readonly Branch[];
}

/** Undefined without a battery. */
export function netsOf(circuit: Pick<Circuit, 'parts' | 'wires'>): Nets | undefined {
  const battery = [...circuit.parts.values()].find((part) => part.type === 'battery');
  if (!battery) return undefined;
  const parent = new Map<string, string>();
  const root = (point: string): string => {
    let top = point;
    for (let up = parent.get(top); up !== undefined && up !== top; up = parent.get(top)) top = up;
    for (let step = point; step !== top;) {
      const up = parent.get(step)!;
      parent.set(step, top);
      step = up;
    }
    return top;
  };
  const join = (one: string, other: string) => parent.set(root(one), root(other));
  for (const part of circuit.parts.values()) {
    for (const point of wirePointsOf(part)) if (!parent.has(point)) parent.set(point, point);
    if (part.type === 'ground') join(part.id, metalOf(part));
    if (part.type === 'alternator' && !part.terminals.includes('31')) join(`${part.id}.31`, BODY_METAL);
    if (part.type === 'connector')
      for (const pin of part.pins) join(`${part.id}.${pin}h`, `${part.id}.${pin}c`);
  }
  for (const wire of circuit.wires) join(wire.from, wire.to);
  const numbers = new Map<string, number>();
  const net = (point: string): number => {
    const top = root(point);
    if (!numbers.has(top)) numbers.set(top, numbers.size);
    return numbers.get(top)!;
  };
  const plus = net(`${battery.id}.30`);
  const minus = net(`${battery.id}.31`);
  const branches = [...circuit.parts.values()].flatMap((part) =>
    branchesOf(part).map(({ kind, ends, amps = 0, control = '', closed = [] }): Branch => {
      return { kind, part, a: net(ends[0]), b: net(ends[1]), ends, amps, control, closed };
    }),
  );
  return { count: numbers.size, plus, minus, branches };
}
