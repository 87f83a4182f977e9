/** Chance from a seed: the same seed gives the same vehicle, so that an exercise or a trial can be repeated. */

/** Numbers from 0 up to 1 (never 1), each call the next. */
export type Draw = () => number;

/** mulberry32: small seeded generator, public domain. */
export function random(seed: number): Draw {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** One of a list; every entry is as likely. @throws RangeError when the list is empty */
export function pick<T>(draw: Draw, list: readonly T[]): T {
  if (list.length === 0) throw new RangeError('nothing to pick from');
  return list[Math.floor(draw() * list.length)]!;
}

/** One of a list by its weight. @throws RangeError when the list is empty */
export function pickByWeight<T>(draw: Draw, list: readonly T[], weight: (entry: T) => number): T {
  let rest = draw() * list.reduce((sum, entry) => sum + weight(entry), 0);
  for (const entry of list) {
    rest -= weight(entry);
    if (rest < 0) return entry;
  }
  return pick(draw, list);
}

/** Between 1 − share and 1 + share. */
export function around(draw: Draw, share: number): number {
  return 1 + share * (2 * draw() - 1);
}
