/** What a test may earn below a state when a bit has a price: part of the bound. */
import type { PreparedTest } from './prepared.js';
import type { State } from './state.js';

/**
 * Adds to `sums`, per possibility, the most the test may earn of each unit of its weight: price x D(shown, Q) - minutes if that is more
 * than 0. The mixture Q may be any; the one that earns least is that of the ways on which the test is worth doing: no outcome has more
 * than it weighs here, and none a share above 2^(-minutes / price), beyond which it earns nothing.
 */
export function earnedBy(
  { start, classes, chances, classCount, minutes }: PreparedTest,
  { who, weights }: State,
  price: number,
  sums: Float64Array,
): void {
  const masses = new Float64Array(classCount);
  for (let k = 0; k < who.length; k++)
    for (let e = start[who[k]!]!; e < start[who[k]! + 1]!; e++)
      masses[classes[e]!]! += weights[k]! * chances[e]!;
  const mixture = mixtureOf(masses, 2 ** (-minutes / price));
  if (mixture === undefined) return;
  for (let k = 0; k < who.length; k++) {
    let bits = 0;
    for (let e = start[who[k]!]!; e < start[who[k]! + 1]!; e++)
      bits += chances[e]! * Math.log2(chances[e]! / mixture[classes[e]!]!);
    const earned = price * bits - minutes;
    if (earned > 0) sums[who[k]!]! += earned;
  }
}

/** Shares of the outcomes, none above the ceiling; undefined when so many outcomes cannot be below it: the test earns nothing. */
function mixtureOf(masses: Float64Array, ceiling: number): Float64Array | undefined {
  const sorted = masses.filter((mass) => mass > 0).sort();
  if (sorted.length * ceiling <= 1) return undefined;
  let below = 0;
  let total = 0;
  for (let j = 0; j <= sorted.length; j++) {
    const capped = (sorted.length - j) * ceiling;
    // With the j lightest at their mass and the others at the ceiling.
    if (capped < 1) {
      total = below / (1 - capped);
      if (j === sorted.length || sorted[j]! >= ceiling * total) break;
    }
    below += sorted[j] ?? 0;
  }
  return masses.map((mass) => Math.min(mass, ceiling * total) / total);
}
