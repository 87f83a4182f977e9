/** Two texts of one circuit, as read from YAML: which of its values were changed, in words that lead to the place. */
import { few } from './layout.js';

/** Text, list or group, as it stands in the file. */
export type Written = string | readonly Written[] | { readonly [name: string]: Written };

/** Changes named before the rest is only counted. */
const MOST_NAMED = 8;

/** "parts H1 watts: 21 W then, 5 W now"; what only one of them has is said so. One line for each, the last for the rest. */
export function drawingChanges(then: Written, now: Written): readonly string[] {
  const [before, after] = [flat(then), flat(now)];
  const changed = [...new Set([...before.keys(), ...after.keys()])].flatMap((place) => {
    const [old, fresh] = [before.get(place), after.get(place)];
    if (old === fresh) return [];
    if (old === undefined) return [`${place}: ${fresh} now, not there then`];
    return [
      fresh === undefined ? `${place}: ${old} then, not there now` : `${place}: ${old} then, ${fresh} now`,
    ];
  });
  return changed.length <= MOST_NAMED
    ? changed
    : [...changed.slice(0, MOST_NAMED), few(changed.slice(MOST_NAMED), 0).trim()];
}

/** Place in words → value. Entries of a list go by their ends or id where they have them, so that one put in moves no other. */
function flat(value: Written): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  const add = (place: string, text: string): void => {
    for (let copy = place, n = 2; ; copy = `${place} (${n++})`)
      if (!found.has(copy)) return void found.set(copy, text);
  };
  const walk = (one: Written, place: string): void => {
    if (typeof one === 'string') return add(place, one);
    const under = place === '' ? '' : `${place} `;
    if (isList(one)) {
      if (one.every((item) => typeof item === 'string')) return add(place, `[${one.join(', ')}]`);
      one.forEach((item, index) => walk(item, `${under}${nameOf(item) ?? index + 1}`));
      return;
    }
    for (const [name, item] of Object.entries(one)) walk(item, under + name);
  };
  walk(value, '');
  return found;
}

function nameOf(item: Written): string | undefined {
  if (typeof item === 'string' || isList(item)) return undefined;
  const { id, from, to } = item;
  if (typeof id === 'string') return id;
  return typeof from === 'string' && typeof to === 'string' ? `${from} to ${to}` : undefined;
}

function isList(value: Written): value is readonly Written[] {
  return Array.isArray(value);
}
