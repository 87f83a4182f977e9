/** Cautions for several events in a row, and for a whole session: each once, with the set-up moving along. */
import type { Circuit } from '../circuit/circuit.js';
import { edit } from '../session/actions.js';
import { standingSetUp } from '../session/decide.js';
import type { Event, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { undoneNumbers } from '../session/observed-order.js';
import { cautionsFor, type Caution } from './cautions.js';

/** What to be careful about before these events are done and recorded. Late entries are done already: nothing to warn of. */
export function cautionsBefore(
  circuit: Circuit,
  recorded: readonly Recorded[],
  events: readonly Event[],
): readonly Caution[] {
  const { timeline } = foldCase(circuit, recorded);
  let setUp = standingSetUp(circuit, recorded);
  const shown = new Map<string, Caution>();
  for (const event of events) {
    if ('before' in event && event.before !== undefined) continue;
    for (const caution of cautionsFor(circuit, setUp, event, { timeline })) shown.set(caution.id, caution);
    if (event.type === 'did') setUp = edit(event.action, setUp);
  }
  return [...shown.values()];
}

/** Every caution that the events of a session called for, in the order of first need. */
export function cautionsOfSession(circuit: Circuit, recorded: readonly Recorded[]): readonly Caution[] {
  const undone = undoneNumbers(recorded);
  const shown = new Map<string, Caution>();
  recorded.forEach(({ number, event }, index) => {
    if (undone.has(number)) return;
    for (const caution of cautionsBefore(circuit, recorded.slice(0, index), [event]))
      shown.set(caution.id, caution);
  });
  return [...shown.values()];
}
