/** A circuit as a drawing sees it: points, and what lies between two of them, each with the feed side first where that is known. */
import { branchesOf } from './branches.js';
import type { Circuit, Part, PointId } from './circuit.js';
import { BODY_METAL, metalOf } from './points.js';

/**
 * `pin`: both sides of a connector pin. `coil`: winding of a relay. `inside`: what a module joins by itself. `bolt`: a ground
 * stud and the metal under it. `source`: an alternator.
 */
export type LinkKind =
  'wire' | 'pin' | 'fuse' | 'contact' | 'load' | 'coil' | 'passive' | 'inside' | 'bolt' | 'source';

export interface Link {
  /** Position in the list. */
  readonly index: number;
  readonly kind: LinkKind;
  /** Part or wire it belongs to. */
  readonly owner: string;
  readonly ends: readonly [PointId, PointId];
  /** Beginnings of the fault sites inside it, without the part: `coil`, `30-87`, `54`; empty = every one of the part. */
  readonly keys: readonly string[];
  /** Contact: what works it (`relay:K1` for a coil), and where it is closed. */
  readonly control: string;
  readonly closed: readonly string[];
}

type Sketch = Pick<Link, 'kind' | 'ends'> & Partial<Link>;

/** In file order: parts, then wires. */
export function linksOf(circuit: Pick<Circuit, 'parts' | 'wires'>): readonly Link[] {
  const wired = new Set(circuit.wires.flatMap(({ from, to }) => [from, to]));
  const sketches: Sketch[] = [
    ...[...circuit.parts.values()].flatMap((part) =>
      insideOf(part)
        // A spare pin leads nowhere.
        .filter(({ kind, ends }) => kind !== 'pin' || ends.some((end) => wired.has(end)))
        .map((sketch) => ({ owner: part.id, ...sketch })),
    ),
    ...circuit.wires.map(({ id, from, to }) => ({
      kind: 'wire' as const,
      owner: id,
      ends: [from, to] as const,
    })),
  ];
  return sketches.map((sketch, index) => ({
    owner: '',
    keys: [],
    control: '',
    closed: [],
    ...sketch,
    index,
  }));
}

function insideOf(part: Part): readonly Sketch[] {
  const point = (terminal: string): PointId => `${part.id}.${terminal}`;
  switch (part.type) {
    case 'connector':
      return part.pins.map((pin) => ({ kind: 'pin', ends: [point(`${pin}h`), point(`${pin}c`)] }));
    case 'ground':
      return [{ kind: 'bolt', ends: [part.id, metalOf(part)] }];
    case 'alternator': {
      const back = part.terminals.includes('31') ? point('31') : BODY_METAL;
      return [
        { kind: 'source', ends: [point('B+'), back] },
        ...(part.terminals.includes('D+')
          ? [{ kind: 'inside', ends: [point('D+'), back], keys: ['D+'] } as const]
          : []),
      ];
    }
    case 'module':
      return moduleLinks(part, point);
    default:
      return branchesOf(part).map(({ kind, ends, control = '', closed = [] }): Sketch => {
        const coil = part.type === 'relay' && kind === 'load';
        const [from, to] = ends.map((end) => end.slice(part.id.length + 1)) as [string, string];
        const keys = coil ? ['coil'] : part.type === 'lamp' ? [from] : [`${from}-${to}`];
        return { kind: coil ? 'coil' : kind, ends, control, closed, keys: single(part) ? [] : keys };
      });
  }
}

/** Everything inside belongs to its only link. */
function single(part: Part): boolean {
  return branchesOf(part).length === 1;
}

function moduleLinks(
  part: Extract<Part, { type: 'module' }>,
  point: (terminal: string) => PointId,
): Sketch[] {
  const [supply, ground] = [point(part.supply), point(part.ground)];
  const inside = (from: PointId, to: PointId, ...keys: string[]): Sketch => ({
    kind: 'inside',
    ends: [from, to],
    keys,
  });
  return [
    inside(supply, ground, 'supply', 'electronics'),
    ...(part.reference === undefined
      ? []
      : [inside(supply, point(part.reference), part.reference, 'reference')]),
    ...part.inputs.map(({ terminal, pull }) =>
      pull === 'up'
        ? inside(supply, point(terminal), terminal)
        : pull === 'reference' && part.reference !== undefined
          ? inside(point(part.reference), point(terminal), terminal)
          : inside(point(terminal), ground, terminal),
    ),
    ...part.outputs.map(({ terminal, side }) =>
      side === 'high' ? inside(supply, point(terminal), terminal) : inside(point(terminal), ground, terminal),
    ),
    ...(part.can === undefined
      ? []
      : [inside(supply, point(part.can.high)), inside(supply, point(part.can.low))]),
  ];
}
