/**
 * Versions of the fault heaped up by what they would read, until few heaps are left: a sheet of paper has room for two or three
 * answers to a test, where a meter knows dozens.
 */
import type { Member } from './outcome-words.js';

export type Pile = readonly Member[];

/** Answers to one test on paper. */
const MOST_PILES = 3;
/** Bits about the repair that a further answer must bring to be worth its line. */
const LEAST_BITS = 0.03;

/**
 * Joins neighbours, those first that lose least about which repair is needed.
 * @param rare weight, as a share of all piles together, under which a pile goes to a neighbour as long as there are more than two
 */
export function fewPiles(piles: readonly Pile[], rare: number): Pile[] {
  const left = [...piles];
  const total = left.reduce((sum, pile) => sum + weightOf(pile), 0);
  while (left.length > 2) {
    const joins = left.slice(1).map((pile, i) => {
      const before = left[i]!;
      const lost = (uncertainty([...before, ...pile]) - uncertainty(before) - uncertainty(pile)) / total;
      const isRare = Math.min(weightOf(before), weightOf(pile)) / total < rare;
      return { at: i, lost, must: isRare || lost < LEAST_BITS };
    });
    const wanted = joins.some(({ must }) => must) ? joins.filter(({ must }) => must) : joins;
    if (wanted === joins && left.length <= MOST_PILES && !joins.some(({ must }) => must)) break;
    const { at } = wanted.reduce((least, join) => (join.lost < least.lost ? join : least));
    left.splice(at, 2, [...left[at]!, ...left[at + 1]!]);
  }
  return left;
}

/** Expected bits about the repair, when it is known in which pile the reading fell. */
export function bitsOf(piles: readonly Pile[]): number {
  const all = piles.flat();
  const after = piles.reduce((sum, pile) => sum + uncertainty(pile), 0);
  return (uncertainty(all) - after) / weightOf(all);
}

export function weightOf(pile: Pile): number {
  return pile.reduce((sum, { likely }) => sum + likely.weight, 0);
}

/** Entropy of the repairs in a pile, times its weight. */
function uncertainty(pile: Pile): number {
  const groups = new Map<number, number>();
  for (const { likely } of pile) groups.set(likely.group, (groups.get(likely.group) ?? 0) + likely.weight);
  const total = weightOf(pile);
  let sum = 0;
  for (const weight of groups.values()) if (weight > 0) sum -= weight * Math.log2(weight / total);
  return sum;
}

/** From where to where most figures of a pile lie: the rarest twentieth of its weight at each end is left out. */
export function mostly(pile: Pile): readonly [low: number, high: number] {
  const sorted = [...pile].sort((a, b) => a.figure - b.figure);
  const aside = weightOf(pile) / 20;
  const edge = (members: Pile): number => {
    let passed = 0;
    for (const { figure, likely } of members) {
      passed += likely.weight;
      if (passed > aside) return figure;
    }
    return members.at(-1)!.figure;
  };
  return [edge(sorted), edge(sorted.reverse())];
}
