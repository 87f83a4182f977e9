/** Which recorded events can no longer stand on a drawing: names it does not have, steps that could not have been done. */
import type { Circuit } from '../circuit/circuit.js';
import { decide } from '../session/decide.js';
import { describeEvent } from '../session/describe-event.js';
import { foldCase } from '../session/fold.js';
import type { Recorded } from '../session/events.js';
import { undoneNumbers } from '../session/observed-order.js';

/** One line for each event that does not fit, in the order recorded; what was undone may speak of anything. */
export function misfits(circuit: Circuit, recorded: readonly Recorded[]): readonly string[] {
  const undone = undoneNumbers(recorded);
  const { now } = foldCase(circuit, recorded);
  const soFar: Recorded[] = [];
  return recorded.flatMap((entry) => {
    const decision = decide(circuit, soFar, [entry.event]);
    soFar.push(entry);
    return decision.ok || undone.has(entry.number)
      ? []
      : [`event ${entry.number} (${describeEvent(circuit, entry.event, now)}): ${decision.message}`];
  });
}
