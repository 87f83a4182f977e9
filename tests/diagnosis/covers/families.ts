/** Random families for the cover tests: seeded, so that a failure can be run again. */

export type Random = () => number;

/** mulberry32, a public-domain 32-bit generator: the same seed gives the same numbers on every machine. */
export function seeded(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function whole(random: Random, from: number, to: number): number {
  return from + Math.floor(random() * (to - from + 1));
}

/** `sets` sets over `elements` elements, each membership with probability `density`; elements may stay uncovered. */
export function randomFamily(random: Random, elements: number, sets: number, density: number): number[][] {
  return Array.from({ length: sets }, () =>
    Array.from({ length: elements }, (_, e) => e).filter(() => random() < density),
  );
}

/** As `randomFamily`, but every element gets at least one set. */
export function coverableFamily(random: Random, elements: number, sets: number, density: number): number[][] {
  const family = randomFamily(random, elements, sets, density);
  for (let e = 0; e < elements; e++) {
    if (!family.some((set) => set.includes(e))) family[whole(random, 0, sets - 1)]!.push(e);
  }
  return family;
}

/** A problem of the oracle run: number, family and costs. Every third has all costs 1, where bounds are weakest. */
export function coverProblem(
  number: number,
  elements = 40,
  sets = 200,
): { sets: number[][]; costs: number[]; density: number } {
  const random = seeded(4000 + number);
  const density = [0.03, 0.05, 0.1, 0.2][number % 4]!;
  const family = coverableFamily(random, elements, sets, density);
  const costs = family.map(() => {
    if (number % 3 === 0) return 1;
    return number % 3 === 1 ? whole(random, 1, 100) : 0.1 + 10 * random();
  });
  return { sets: family, costs, density };
}
