/**
 * The order in which things happened, which is not always the order in which they were typed:
 * five tests written down late belong before the unplugging that followed them. Undone events are left out.
 */
import type { Recorded } from './events.js';

/** Numbers of the events that count no more. Undoing an undo brings the event back. */
export function undoneNumbers(recorded: readonly Recorded[]): ReadonlySet<number> {
  const undone = new Set<number>();
  // From the last to the first: whether an undo counts is settled by later undos alone.
  for (let i = recorded.length - 1; i >= 0; i--) {
    const { number, event } = recorded[i]!;
    if (event.type === 'undone' && !undone.has(number) && event.number < number) undone.add(event.number);
  }
  return undone;
}

/**
 * Events that count, as observed. An event marked `before: N` stands directly before N (and after other late entries
 * for N typed earlier), also where N itself was undone since.
 */
export function observedOrder(recorded: readonly Recorded[]): readonly Recorded[] {
  const undone = undoneNumbers(recorded);
  return placed(recorded).filter((entry) => !undone.has(entry.number) && entry.event.type !== 'undone');
}

/** What counts and was observed before the event of that number; everything that counts when no number is given. */
export function observedBefore(
  recorded: readonly Recorded[],
  number: number | undefined,
): readonly Recorded[] {
  if (number === undefined) return observedOrder(recorded);
  const undone = undoneNumbers(recorded);
  const order = placed(recorded);
  return order
    .slice(
      0,
      order.findIndex((entry) => entry.number === number),
    )
    .filter((entry) => !undone.has(entry.number) && entry.event.type !== 'undone');
}

function placed(recorded: readonly Recorded[]): readonly Recorded[] {
  const order: Recorded[] = [];
  for (const entry of recorded) {
    const before = 'before' in entry.event ? entry.event.before : undefined;
    const place = before === undefined ? -1 : order.findIndex((other) => other.number === before);
    if (place === -1) order.push(entry);
    else order.splice(place, 0, entry);
  }
  return order;
}
