/** The names of the places where a probe can go (see PointId), and how a typed name finds its point. */
import { terminalsOf, type Circuit, type Ground, type Part, type PointId } from './circuit.js';
import { didYouMean } from './nearest.js';

/** Bare body metal, as a point. */
export const BODY_METAL = 'body';

/** The metal a ground point is bolted to: the body, or a frame of its own. */
export function metalOf(ground: Ground): PointId {
  return ground.frame ?? BODY_METAL;
}

/** Frames of the circuit that are not the body, each once, in file order. */
export function framesOf(parts: ReadonlyMap<string, Part>): readonly string[] {
  const frames = [...parts.values()].flatMap((part) => (part.type === 'ground' ? (part.frame ?? []) : []));
  return [...new Set(frames)];
}

/** Points where a wire can end on a part: terminals (harness side), both sides of connector pins, studs and splices. */
export function wirePointsOf(part: Part): readonly PointId[] {
  switch (part.type) {
    case 'ground':
    case 'splice':
      return [part.id];
    case 'connector':
      return part.pins.flatMap((pin) => [`${part.id}.${pin}h`, `${part.id}.${pin}c`]);
    default:
      return terminalsOf(part).map((terminal) => `${part.id}.${terminal}`);
  }
}

/** Every point of a part, the item side of its terminals (`F4.2i`) included. */
export function pointsOf(part: Part): readonly PointId[] {
  const ends = wirePointsOf(part);
  const itemSides = terminalsOf(part).map((terminal) => `${part.id}.${terminal}i`);
  return [...ends, ...itemSides];
}

/** Can more than one wire end here? Posts, studs and splices take several; everything else takes one. */
export function takesSeveralWires(part: Part): boolean {
  return ['battery', 'alternator', 'ground', 'splice'].includes(part.type);
}

export type Resolved = { readonly point: PointId } | { readonly wrong: string; readonly mend: string };

/** A finder of points among these parts, blind to case. `points` says which points count for the purpose. */
export function pointFinder(
  parts: ReadonlyMap<string, Part>,
  points: (part: Part) => readonly PointId[],
): (typed: string) => Resolved {
  const byName = new Map<string, PointId>();
  const partByName = new Map<string, Part>();
  for (const part of parts.values()) {
    partByName.set(part.id.toLowerCase(), part);
    for (const point of points(part)) byName.set(point.toLowerCase(), point);
  }
  return (typed) => {
    const point = byName.get(typed.toLowerCase());
    if (point !== undefined) return { point };
    const dot = typed.indexOf('.');
    const part = partByName.get((dot < 0 ? typed : typed.slice(0, dot)).toLowerCase());
    if (!part) {
      const name = dot < 0 ? typed : typed.slice(0, dot);
      const near = didYouMean(name, [...parts.keys()], 'part');
      return {
        wrong: `there is no part called “${name}”`,
        mend: near.startsWith('did you mean') ? near : `add ${name} under parts, or correct the name`,
      };
    }
    const own = points(part);
    if (
      part.type === 'connector' &&
      part.pins.some((pin) => typed.toLowerCase() === `${part.id}.${pin}`.toLowerCase())
    ) {
      return {
        wrong: `“${typed}” does not say which side of connector ${part.id}`,
        mend: `write ${typed}h for the harness side or ${typed}c for the component side`,
      };
    }
    if (dot < 0)
      return {
        wrong: `“${typed}” does not say which terminal of ${part.id}`,
        mend: `use one of: ${own.join(', ')}`,
      };
    if (own.length === 1 && own[0] === part.id) {
      return { wrong: `${part.id} is a ${part.type} and has no terminals`, mend: `write only ${part.id}` };
    }
    return {
      wrong: `${part.id} has no terminal or pin “${typed.slice(dot + 1)}”`,
      mend: didYouMean(typed, own, 'terminal'),
    };
  };
}

/**
 * Finds the point a person means in a circuit: `x3.1H`, `F4.2i`, `bat+`, `bat-`, `body`. The result is spelled as the
 * circuit spells it (`bat+` stays `bat+`).
 */
export function resolvePoint(circuit: Circuit, typed: string): Resolved {
  const lower = typed.trim().toLowerCase();
  if (lower === 'bat+' || lower === 'bat-' || lower === BODY_METAL) return { point: lower };
  const frame = framesOf(circuit.parts).find((one) => one.toLowerCase() === lower);
  if (frame !== undefined) return { point: frame };
  return pointFinder(circuit.parts, pointsOf)(typed.trim());
}
