/** Parts that guard a circuit: in whose place a test lamp may hang, and which are reset instead of replaced. */
import { terminalsOf, type Circuit, type PartId, type PartType, type PointId } from '../circuit/circuit.js';
import type { SetUp } from './setup.js';

const FUSE_LIKE: ReadonlySet<PartType> = new Set<PartType>(['fuse', 'fusible link', 'breaker']);

/** A fuse, fusible link or breaker: two terminals in the feed, made to part it. */
export function isFuseLike(circuit: Circuit, part: PartId): boolean {
  const type = circuit.parts.get(part)?.type;
  return type !== undefined && FUSE_LIKE.has(type);
}

/** A breaker that is reset by hand, or a module whose outputs shut down until reset. */
export function isResettable(circuit: Circuit, id: PartId): boolean {
  const part = circuit.parts.get(id);
  return part?.type === 'module' || (part?.type === 'breaker' && part.reset === 'manual');
}

export function hasLamp(part: PartId, setUp: SetUp): boolean {
  return setUp.lamps.has(part);
}

/** The two holder contacts, harness side, between which a test lamp hangs in place of the fuse. */
export function lampEnds(circuit: Circuit, part: PartId): readonly [PointId, PointId] {
  const [feed, load] = terminalsOf(circuit.parts.get(part)!);
  return [`${part}.${feed}`, `${part}.${load}`];
}
