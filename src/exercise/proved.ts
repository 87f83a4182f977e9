/** Was the repair proved on the complaint itself: every condition the customer named, looked at again after it and found good? */
import { isRepair } from '../session/actions.js';
import type { Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import type { Circuit } from '../circuit/circuit.js';
import { complaintSeen, type Complained } from './complaint-events.js';

/** Number of the complaint's conditions that were found good after the last repair; the last look at each counts. */
export function provedConditions(
  circuit: Circuit,
  recorded: readonly Recorded[],
  complained: readonly Complained[],
): number {
  const { timeline } = foldCase(circuit, recorded);
  const last = timeline.findLastIndex((step) => step.kind === 'action' && isRepair(step.action));
  if (last < 0) return 0;
  const good = new Map<Complained, boolean>();
  for (const step of timeline.slice(last + 1)) {
    if (step.kind !== 'finding' || step.finding.reading.kind !== 'load') continue;
    const { reading, setUp, evidence } = step.finding;
    const changed = setUp.out.size + setUp.unplugged.size + setUp.jumpers.length + setUp.fitted.size;
    if (evidence === 'told' || changed + setUp.lamps.size > 0) continue;
    const one = complaintSeen(complained, reading.load, setUp);
    if (one !== undefined) good.set(one, one.good.has(reading.value));
  }
  return [...good.values()].filter(Boolean).length;
}
