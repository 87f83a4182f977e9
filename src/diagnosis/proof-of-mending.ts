/**
 * Did the repair cure it? A repair proves its fault only if the vehicle would still fail without it: after a new fuse everything
 * works again, whatever blew the old one, until that is repeated.
 */
import { openPlaces, union, without } from './alive.js';
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import { canBlow } from './faults.js';
import type { Progress } from './verdict.js';
import { begin, walk } from './verdict.js';
import type { Workbench } from './workbench.js';

/**
 * Words overlap: a lamp at half its volts may be called off before and lit after; and a fuse near its limit may blow or hold. So
 * much of the severities may read either way (our own figure).
 */
const OVERLAP = 0.4;

/** Would a reading after the last repair of this fault have come out otherwise, had the fault stayed as it was? */
export function isMissed(bench: Workbench, fault: Fault, evidence: Evidence): boolean {
  const { steps } = evidence;
  const at = steps.findLastIndex((step) => step.kind === 'change' && step.mends?.(fault) === true);
  if (at < 0) return false;
  // It still failed after that: what came good later did not come good by this, but for the fuse that a short had blown.
  const stayed = steps.slice(at).some((step) => step.kind === 'observation' && step.again);
  if (stayed && !canBlow(fault)) return false;
  const before = walk(bench, begin([fault], evidence, 'steady'), steps.slice(0, at));
  if (before.fall !== undefined) return false;
  const there = { ...before, alive: without(before.alive, before.grid.size - 1) };
  const untouched = steps
    .slice(at)
    .map((step) => (step.kind === 'change' ? { ...step, touched: [], replaced: undefined } : step));
  const after = walk(bench, there, untouched);
  return after.fall !== undefined || room(after) <= OVERLAP * room(there);
}

/** Number of severities that still fit. */
function room({ alive, grid }: Progress): number {
  return openPlaces(union(alive, grid.size)).length;
}
