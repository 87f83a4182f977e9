/** Which way current goes through each link: every point gets a height between battery + (0) and battery − (1). */
import type { Circuit, PointId } from './circuit.js';
import { BODY_METAL, framesOf } from './points.js';
import { linksOf, type Link, type LinkKind } from './links.js';

export interface Plan {
  readonly circuit: Circuit;
  readonly links: readonly Link[];
  /** Links at a point, in file order. */
  readonly at: ReadonlyMap<PointId, readonly Link[]>;
  /** 0 at battery +, 1 at battery −. */
  readonly height: (point: PointId) => number;
  readonly plus: PointId;
  readonly minus: PointId;
  /** Points where a stretch ends on metal: studs, the body, frames. */
  readonly grounded: ReadonlySet<PointId>;
}

/** How far apart the ends of a link count to be: what uses the volts stands between feed and ground. */
const LENGTH: Readonly<Record<LinkKind, number>> = {
  wire: 1,
  pin: 1,
  fuse: 1,
  contact: 1,
  bolt: 1,
  passive: 20,
  inside: 30,
  coil: 60,
  load: 60,
  source: 60,
};

/** @param keep only these links; left out = all */
export function planOf(circuit: Circuit, keep?: (link: Link) => boolean): Plan {
  const links = linksOf(circuit);
  const kept = keep === undefined ? links : links.filter(keep);
  const battery = [...circuit.parts.values()].find(({ type }) => type === 'battery');
  const [plus, minus] = [`${battery?.id}.30`, `${battery?.id}.31`];
  const all = atPoints(links);
  const [down, up] = [distances(all, plus), distances(all, minus)];
  const height = (point: PointId): number => {
    const [from, to] = [down.get(point) ?? Infinity, up.get(point) ?? Infinity];
    if (from === Infinity) return 1;
    return to === Infinity ? 0 : from / (from + to || 1);
  };
  const studs = [...circuit.parts.values()].flatMap(({ type, id }) => (type === 'ground' ? [id] : []));
  const grounded = new Set([...studs, BODY_METAL, ...framesOf(circuit.parts)]);
  return { circuit, links: kept, at: atPoints(kept), height, plus, minus, grounded };
}

/** The other end of a link. */
export function across({ ends: [a, b] }: Link, point: PointId): PointId {
  return a === point ? b : a;
}

/** Does current go, or could it, from this point into the link? Ends of equal height: the way the file has it. */
export function goesDown(plan: Plan, link: Link, from: PointId): boolean {
  const [here, there] = [plan.height(from), plan.height(across(link, from))];
  return here === there ? link.ends[0] === from || link.kind === 'wire' || link.kind === 'pin' : here < there;
}

function atPoints(links: readonly Link[]): Map<PointId, Link[]> {
  const at = new Map<PointId, Link[]>();
  for (const link of links)
    for (const end of link.ends) {
      const own = at.get(end);
      if (own === undefined) at.set(end, [link]);
      else own.push(link);
    }
  return at;
}

/** Shortest way to every point (Dijkstra; lengths are small whole numbers, so buckets serve as the queue). */
function distances(at: ReadonlyMap<PointId, readonly Link[]>, from: PointId): Map<PointId, number> {
  const settled = new Map<PointId, number>();
  const buckets: PointId[][] = [[from]];
  for (let distance = 0; distance < buckets.length; distance++) {
    for (const point of buckets[distance] ?? []) {
      if (settled.has(point)) continue;
      settled.set(point, distance);
      for (const link of at.get(point) ?? [])
        (buckets[distance + LENGTH[link.kind]] ??= []).push(across(link, point));
    }
  }
  return settled;
}
