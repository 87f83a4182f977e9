/**
 * A circuit as pieces of a drawing for paper: a symbol for each part (for each contact and coil, which stand where their
 * current goes, as in a drawing with detached symbols), a dot where wires meet, and the wires between.
 */
import type { Module, PointId } from '../../../circuit/circuit.js';
import { goesDown, type Plan } from '../../../circuit/downhill.js';
import type { Link } from '../../../circuit/links.js';

/** A place on a piece where a wire ends. `x`, `y` within the piece; `side` up or down. */
export interface Port {
  readonly id: string;
  readonly side: 'top' | 'bottom';
  readonly point: PointId;
}

export type Piece =
  | { readonly kind: 'link'; readonly id: string; readonly link: Link; readonly ports: readonly Port[] }
  | { readonly kind: 'module'; readonly id: string; readonly part: Module; readonly ports: readonly Port[] }
  | { readonly kind: 'battery'; readonly id: string; readonly ports: readonly Port[] }
  | {
      readonly kind: 'dot' | 'ground';
      readonly id: string;
      readonly point: PointId;
      readonly ports: readonly Port[];
      /** Drawn more than once, so that the sheet does not get too wide: `first` is where current comes from. */
      readonly shown?: 'first' | 'again';
    };

export interface Line {
  readonly id: string;
  /** Port ids, feed side first. */
  readonly from: string;
  readonly to: string;
  /** The wire; undefined where two symbols touch. */
  readonly link: Link | undefined;
}

export interface Pieces {
  readonly pieces: readonly Piece[];
  readonly lines: readonly Line[];
}

/** @param cut points to draw once for each wire that goes down from them (or, for grounds, comes to them) */
export function piecesOf(plan: Plan, cut: ReadonlySet<PointId> = new Set()): Pieces {
  const links = plan.links.filter(({ kind }) => kind !== 'bolt');
  const symbols = links.filter(({ kind, owner }) => kind !== 'wire' && !isModule(plan, owner));
  const wires = links.filter(({ kind }) => kind === 'wire');
  const pieces: Piece[] = symbols.map((link) => symbolPiece(plan, link));
  for (const part of plan.circuit.parts.values()) {
    if (part.type !== 'module' || !links.some(({ owner }) => owner === part.id)) continue;
    pieces.push({ kind: 'module', id: part.id, part, ports: modulePorts(plan, part, wires) });
  }
  pieces.push({
    kind: 'battery',
    id: 'battery',
    ports: [plan.minus, plan.plus].map((point) => ({ id: `battery ${point}`, side: 'bottom', point })),
  });
  // Every place where something ends at a point: ports of symbols, and ends of wires.
  const ports = new Map<PointId, string[]>();
  const note = (point: PointId, port: string): void => {
    ports.set(point, [...(ports.get(point) ?? []), port]);
  };
  for (const { ports: own } of pieces) for (const { id, point } of own) note(point, id);
  for (const { index, ends } of wires) for (const end of ends) note(end, `${index} ${end}`);
  const joined = new Map<string, string>();
  const lines: Line[] = [];
  for (const [point, own] of ports) {
    const ends = own.filter((port) => /^\d+ /.test(port));
    const fixed = own.filter((port) => !/^\d+ /.test(port));
    if (own.length === 2 && fixed.length === 1 && !isNamed(plan, point)) {
      joined.set(ends[0]!, fixed[0]!);
      continue;
    }
    if (fixed.length === 1 && point !== plan.plus && point !== plan.minus && own.length === 1) continue;
    if (fixed[0]?.startsWith('battery ')) {
      for (const end of ends) joined.set(end, fixed[0]);
      continue;
    }
    const whole = pointPiece(plan, point, [...ends, ...fixed], pieces, wires);
    const piece: Piece = cut.has(point) && whole.kind === 'dot' ? { ...whole, shown: 'first' } : whole;
    const [top, bottom] = piece.ports as [Port, Port | undefined];
    let again = 0;
    for (const end of ends) {
      const wire = wires.find(({ index }) => end === `${index} ${point}`)!;
      const upper = isUpper(plan, wire, point);
      if (!cut.has(point) || (piece.kind === 'dot' && !upper)) {
        joined.set(end, upper ? (bottom ?? top).id : top.id);
        continue;
      }
      const port: Port = { id: `${piece.id} ${wire.index}`, side: upper ? 'bottom' : 'top', point };
      const shown = piece.kind === 'dot' || again++ > 0 ? { shown: 'again' as const } : {};
      pieces.push({
        kind: piece.kind as 'dot',
        id: `${piece.id} for ${wire.index}`,
        point,
        ports: [port],
        ...shown,
      });
      joined.set(end, port.id);
    }
    if (!cut.has(point) || piece.kind === 'dot') pieces.push(piece);
    for (const port of fixed) {
      const below = pieces.some(({ ports: own_ }) =>
        own_.some(({ id, side }) => id === port && side === 'top'),
      );
      const [from, to] = below ? [(bottom ?? top).id, port] : [port, top.id];
      lines.push({ id: `join ${port}`, from, to, link: undefined });
    }
  }
  for (const wire of wires) {
    const [a, b] = wire.ends;
    const [from, to] = isUpper(plan, wire, a) ? [a, b] : [b, a];
    lines.push({
      id: `wire ${wire.index}`,
      from: joined.get(`${wire.index} ${from}`)!,
      to: joined.get(`${wire.index} ${to}`)!,
      link: wire,
    });
  }
  return { pieces, lines };
}

/** From the battery's minus the wire to its stud goes down on paper. */
function isUpper(plan: Plan, link: Link, point: PointId): boolean {
  if (link.ends.includes(plan.minus)) return point === plan.minus;
  if (!goesDown(plan, link, point)) return false;
  const other = link.ends[0] === point ? link.ends[1] : link.ends[0];
  return !goesDown(plan, link, other) || link.ends[0] === point;
}

function symbolPiece(plan: Plan, link: Link): Piece {
  const [a, b] = link.ends;
  const [from, to] = isUpper(plan, link, a) ? [a, b] : [b, a];
  return {
    kind: 'link',
    id: `link ${link.index}`,
    link,
    ports: [
      { id: `${link.index}: ${from}`, side: 'top', point: from },
      { id: `${link.index}: ${to}`, side: 'bottom', point: to },
    ],
  };
}

/** A terminal stands on top where its wire comes from above. */
function modulePorts(plan: Plan, part: Module, wires: readonly Link[]): readonly Port[] {
  const points = new Set(plan.links.filter(({ owner }) => owner === part.id).flatMap(({ ends }) => ends));
  return [...points].map((point) => {
    const wire = wires.find(({ ends }) => ends.includes(point));
    const below = wire !== undefined && isUpper(plan, wire, point);
    return { id: `${part.id}: ${point}`, side: below ? 'bottom' : 'top', point };
  });
}

function pointPiece(
  plan: Plan,
  point: PointId,
  own: readonly string[],
  pieces: readonly Piece[],
  wires: readonly Link[],
): Piece {
  const id = `point ${point}`;
  const top: Port = { id: `${id} top`, side: 'top', point };
  const leaves =
    wires.some((wire) => wire.ends.includes(point) && isUpper(plan, wire, point)) ||
    pieces.some(({ ports }) => ports.some((port) => own.includes(port.id) && port.side === 'top'));
  if (plan.grounded.has(point) && !leaves) return { kind: 'ground', id, point, ports: [top] };
  return { kind: 'dot', id, point, ports: [top, { id: `${id} bottom`, side: 'bottom', point }] };
}

function isNamed({ circuit, grounded }: Plan, point: PointId): boolean {
  return grounded.has(point) || circuit.parts.get(point)?.type === 'splice';
}

function isModule({ circuit }: Plan, owner: string): boolean {
  return circuit.parts.get(owner)?.type === 'module';
}

/** Points at which many wires part or meet, the widest first: there a sheet that is too wide can be cut. */
export function cutsFor(plan: Plan): readonly PointId[] {
  const wires = plan.links.filter(({ kind }) => kind === 'wire');
  const below = (point: PointId): number =>
    wires.filter((wire) => wire.ends.includes(point) && isUpper(plan, wire, point)).length;
  const here = (point: PointId): number => wires.filter(({ ends }) => ends.includes(point)).length;
  const splices = [...plan.circuit.parts.values()].flatMap(({ id, type }) =>
    type === 'splice' && below(id) > 1 ? [id] : [],
  );
  return splices.sort((a, b) => below(b) - below(a) || here(b) - here(a));
}

/** Ground points with more than one wire. */
export function sharedGrounds(plan: Plan): readonly PointId[] {
  const wires = plan.links.filter(({ kind }) => kind === 'wire');
  return [...plan.grounded].filter((point) => wires.filter(({ ends }) => ends.includes(point)).length > 1);
}
