/** What an act on the vehicle would mend, and what that takes: the repair of the fault, by the fault's own minutes and price. */
import type { Fault, Repair } from '../diagnosis/faults.js';
import { isMendedBy } from '../diagnosis/mended-by.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Action } from '../session/events.js';

/** Faults that the act mends where they are there: on the simulated vehicle, and in the marks. */
export function mendedBy(bench: Workbench, action: Action): readonly Fault[] {
  return bench.faults.filter((fault) => isMendedBy(action, fault));
}

/**
 * The repair that the act stands for.
 * @param hidden ids of the faults that are there: the one that it mends counts, else the likeliest at that place
 */
export function repairOf(
  bench: Workbench,
  action: Action,
  hidden: ReadonlySet<string> = new Set(),
): Repair | undefined {
  const faults = mendedBy(bench, action);
  const there = faults.find(({ id }) => hidden.has(id));
  if (there !== undefined) return there.repair;
  return [...faults].sort((a, b) => b.weight - a.weight)[0]?.repair;
}
