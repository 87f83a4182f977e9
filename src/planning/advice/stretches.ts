/** What can be reached from a point without going through a fuse or a load: the stretch that one fuse protects. */
import type { PointId } from '../../circuit/circuit.js';
import { across, goesDown, type Plan } from '../../circuit/downhill.js';
import type { Link, LinkKind } from '../../circuit/links.js';

const ENDS: ReadonlySet<LinkKind> = new Set<LinkKind>(['load', 'coil', 'source', 'bolt', 'inside']);

export interface Stretch {
  /** Wires, pins, contacts and resistors on the way. */
  readonly links: readonly Link[];
  /** What stands at its ends: fuses, and what uses the current. */
  readonly ends: readonly Link[];
}

/** Downhill from a point, as far as current is not limited by a fuse or used by a load. */
export function stretchBelow(plan: Plan, from: PointId): Stretch {
  const links = new Map<number, Link>();
  const ends = new Map<number, Link>();
  const points = [from];
  const seen = new Set(points);
  for (const point of points) {
    if (plan.grounded.has(point)) continue;
    for (const link of plan.at.get(point) ?? []) {
      if (!goesDown(plan, link, point)) continue;
      if (link.kind === 'fuse' || ENDS.has(link.kind)) {
        ends.set(link.index, link);
        continue;
      }
      links.set(link.index, link);
      const other = across(link, point);
      if (!seen.has(other)) {
        seen.add(other);
        points.push(other);
      }
    }
  }
  return { links: [...links.values()], ends: [...ends.values()] };
}

/** The side of a fuse that its loads hang on. */
export function lowerEnd(plan: Plan, { ends: [a, b] }: Link): PointId {
  return plan.height(a) < plan.height(b) ? b : a;
}

/** "W3", "W3 and W4", "W3, W4 and 5 more". */
export function fewNames(names: readonly string[], most = 4): string {
  const shown = names.slice(0, most);
  const more = names.length - shown.length;
  if (more > 0) return `${shown.join(', ')} and ${more} more`;
  return shown.length < 2 ? (shown[0] ?? '') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)!}`;
}
