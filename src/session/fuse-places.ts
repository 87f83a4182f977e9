/** Parts that guard a circuit: in whose place a test lamp may hang, and which are reset instead of replaced. */
import { terminalsOf, type Circuit, type PartId, type PointId } from '../circuit/circuit.js';
import type { SetUp } from './setup.js';

const FUSE_LIKE: ReadonlySet<string> = new Set(['fuse', 'fusible link', 'breaker']);
const RESETTABLE: ReadonlySet<string> = new Set(['breaker', 'module']);

/** A fuse, fusible link or breaker: two terminals in the feed, made to part it. */
export function isFuseLike(circuit: Circuit, part: PartId): boolean {
  return FUSE_LIKE.has(circuit.parts.get(part)?.type ?? '');
}

/** A breaker that trips, or a module whose outputs shut down until reset. */
export function isResettable(circuit: Circuit, part: PartId): boolean {
  return RESETTABLE.has(circuit.parts.get(part)?.type ?? '');
}

export function hasLamp(part: PartId, setUp: SetUp): boolean {
  return setUp.lamps.has(part);
}

/** The two holder contacts, harness side, between which a test lamp hangs in place of the fuse. */
export function lampEnds(circuit: Circuit, part: PartId): readonly [PointId, PointId] {
  const [feed, load] = terminalsOf(circuit.parts.get(part)!);
  return [`${part}.${feed}`, `${part}.${load}`];
}
