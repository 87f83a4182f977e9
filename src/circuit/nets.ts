/**
 * The circuit with everything that is always joined drawn together: wires, splices, plugged connectors and body metal
 * become one net, and what is left between nets are fuses, contacts and loads. Enough for the rules that follow current
 * without solving anything.
 */
import { terminalsOf, type Circuit, type Part } from './circuit.js';
import { wirePointsOf } from './points.js';

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
    if (part.type === 'ground') join(part.id, 'body');
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
    sketch(part).map(({ kind, from, to, amps = 0, control = '', closed = [] }): Branch => {
      const ends = [`${part.id}.${from}`, `${part.id}.${to}`] as const;
      return { kind, part, a: net(ends[0]), b: net(ends[1]), ends, amps, control, closed };
    }),
  );
  return { count: numbers.size, plus, minus, branches };
}

interface Sketch {
  readonly kind: Branch['kind'];
  readonly from: string;
  readonly to: string;
  readonly amps?: number;
  readonly control?: string;
  readonly closed?: readonly string[];
}

function sketch(part: Part): Sketch[] {
  switch (part.type) {
    case 'fuse':
      return [{ kind: 'fuse', from: '1', to: '2' }];
    case 'switch':
      return part.contacts.map(({ between: [from, to], closed }) => ({
        kind: 'contact',
        from,
        to,
        control: part.control,
        closed,
      }));
    case 'relay': {
      const control = `relay:${part.id}`;
      const made: Sketch[] = [
        { kind: 'load', from: '86', to: '85', amps: 0 },
        { kind: 'contact', from: '30', to: '87', control, closed: ['on'] },
      ];
      if (part.changeOver) made.push({ kind: 'contact', from: '30', to: '87a', control, closed: ['off'] });
      return made;
    }
    case 'lamp':
      return part.filaments.map(({ terminal, watts, volts }) => ({
        kind: 'load',
        from: terminal,
        to: '31',
        amps: watts / volts,
      }));
    case 'horn':
    case 'motor': {
      const [from, to] = terminalsOf(part) as [string, string];
      return [{ kind: 'load', from, to, amps: part.amps }];
    }
    case 'resistor':
      return [{ kind: 'passive', from: '1', to: '2' }];
    case 'diode':
      return [{ kind: 'passive', from: 'A', to: 'K' }];
    default:
      return [];
  }
}
