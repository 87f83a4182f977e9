/** May two items change places? Only like for like, or the swap itself would be the next fault. */
import type { Circuit, PartId } from '../circuit/circuit.js';

/** What says where a part sits or what moves or needs it, not what its item is. */
const NOT_OF_THE_ITEM: ReadonlySet<string> = new Set([
  ...['id', 'label', 'place', 'price', 'neverProbe', 'control', 'contacts', 'drives'],
]);
/** Part types without an item that could be taken out, exchanged or renewed. */
export const NO_ITEM: ReadonlySet<string> = new Set(['ground', 'splice', 'connector', 'coupling']);

/** Why the two are not alike, in words ("amps 15 against 10"); undefined when they are. */
export function unlikeWhy(circuit: Circuit, first: PartId, second: PartId): string | undefined {
  const [a, b] = [circuit.parts.get(first)!, circuit.parts.get(second)!];
  for (const part of [a, b])
    if (NO_ITEM.has(part.type)) return `${part.id} is a ${part.type} and has no item to take out`;
  if (a.type !== b.type) return `${first} is a ${a.type}, ${second} a ${b.type}`;
  if (a.type === 'switch' && b.type === 'switch') {
    const terminals = [a, b].map(({ contacts }) => JSON.stringify(contacts.map(({ between }) => between)));
    if (terminals[0] !== terminals[1]) return 'their contacts differ';
  }
  const [mine, theirs] = [itemOf(a), itemOf(b)];
  const differing = [...new Set([...mine.keys(), ...theirs.keys()])].filter(
    (name) => JSON.stringify(mine.get(name)) !== JSON.stringify(theirs.get(name)),
  );
  return differing.length === 0
    ? undefined
    : differing
        .map((name) => `${plain(name)} ${shown(mine.get(name))} against ${shown(theirs.get(name))}`)
        .join(', ');
}

function itemOf(part: object): ReadonlyMap<string, unknown> {
  return new Map(Object.entries(part).filter(([name]) => !NOT_OF_THE_ITEM.has(name)));
}

/** `pullInVolts` as `pull in volts`. */
function plain(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return value.map(shown).join(' and ');
  if (typeof value === 'object' && value !== null)
    return Object.entries(value)
      .map(([name, inner]) => `${plain(name)} ${shown(inner)}`)
      .join(' ');
  return String(value ?? 'not given');
}
