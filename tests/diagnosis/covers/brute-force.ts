/** The definitions of cover and hitting set tried on every subset: slow, and independent of any search. */

/** Every subset of 0 … count − 1, rising members, smaller subsets first, then by member. */
export function subsets(count: number): number[][] {
  const all: number[][] = [];
  for (let mask = 0; mask < 1 << count; mask++) {
    all.push(Array.from({ length: count }, (_, i) => i).filter((i) => (mask >> i) & 1));
  }
  return all.sort(bySize);
}

export function bySize(a: readonly number[], b: readonly number[]): number {
  return a.length - b.length || a.map((x, i) => x - b[i]!).find((d) => d !== 0) || 0;
}

export function isCover(
  universe: number,
  sets: readonly (readonly number[])[],
  chosen: readonly number[],
): boolean {
  return Array.from({ length: universe }, (_, e) => e).every((e) => chosen.some((s) => sets[s]!.includes(e)));
}

export function bruteIrredundantCovers(
  universe: number,
  sets: readonly (readonly number[])[],
  maxSize: number,
): number[][] {
  return subsets(sets.length).filter(
    (chosen) =>
      chosen.length <= maxSize &&
      isCover(universe, sets, chosen) &&
      chosen.every(
        (s) =>
          !isCover(
            universe,
            sets,
            chosen.filter((t) => t !== s),
          ),
      ),
  );
}

export function bruteMinimumCost(
  universe: number,
  sets: readonly (readonly number[])[],
  costs: readonly number[],
): number | undefined {
  let least: number | undefined;
  for (const chosen of subsets(sets.length)) {
    const cost = chosen.reduce((sum, s) => sum + costs[s]!, 0);
    if ((least === undefined || cost < least) && isCover(universe, sets, chosen)) least = cost;
  }
  return least;
}

/** Members are 0 … members − 1. */
export function bruteMinimalHittingSets(members: number, sets: readonly (readonly number[])[]): number[][] {
  const hits = (chosen: readonly number[]): boolean =>
    sets.every((set) => set.some((m) => chosen.includes(m)));
  return subsets(members).filter(
    (chosen) => hits(chosen) && chosen.every((m) => !hits(chosen.filter((other) => other !== m))),
  );
}
