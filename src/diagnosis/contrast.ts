/** Two loads seen side by side, one good and one dead: an observation of its own, beside what each says alone. */
import type { LoadKind } from '../network/network.js';
import type { Finding } from '../session/case.js';
import type { Observation, Quantity } from './observe.js';
import { probe, sourceFor } from './observe.js';
import { WORDS } from './sights.js';
import type { Workbench } from './workbench.js';

/** A load that works must have this much more of its rated volts than one beside it that is dead (common practice, no source). */
export const CLEARLY_BRIGHTER = 0.08;

/**
 * One load works and another of the same kind and size is dead, both in the same set-up: whatever reaches both alike cannot be
 * the reason. `together`: findings of the same set-up, with nothing touched between. Seen one by one, a supply just between "off" and "lit" would pass for both.
 */
export function contrast(
  bench: Workbench,
  finding: Finding,
  together: readonly Finding[],
  earlier: readonly Finding[],
): Observation[] {
  const mine = standing(bench, finding);
  if (mine === undefined) return [];
  const rivals = together.flatMap((other) => {
    const theirs = standing(bench, other);
    return theirs !== undefined && theirs.good !== mine.good && theirs.size === mine.size ? [theirs] : [];
  });
  const rival = rivals.at(-1);
  const asked = probe(bench, finding.setUp, finding.reading);
  if (rival === undefined || asked === undefined) return [];
  const [bright, dead] = mine.good ? [mine, rival] : [rival, mine];
  const quantity = { ...bright.quantity, magnitude: false, minus: dead.quantity };
  const { source, pinned } = sourceFor(bench, finding, earlier);
  return [
    {
      ...asked,
      finding: finding.number,
      kind: 'contrast',
      setUp: finding.setUp,
      source,
      pinned,
      quantity,
      low: CLEARLY_BRIGHTER,
      high: Infinity,
      shown: 'one works and one is dead',
      hard: true,
    },
  ];
}

/**
 * Kinds whose answer rises smoothly with their voltage. Two motors, horns or relays at the same low voltage may well differ: one
 * starts, the other stalls; a load of which only the watts are known may have any threshold, and an LED the wrong way round is
 * dark at full volts.
 */
const COMPARABLE: ReadonlySet<LoadKind> = new Set(['lamp', 'heater']);

/** A load seen plainly good or plainly dead, and what is of its size. */
function standing(
  bench: Workbench,
  finding: Finding,
): { good: boolean; size: string; quantity: Quantity } | undefined {
  const { reading } = finding;
  if (reading.kind !== 'load' || finding.evidence === 'told') return undefined;
  const load = bench.network.loads.get(reading.load)!;
  if (!COMPARABLE.has(load.kind)) return undefined;
  const words = WORDS[load.kind];
  if (reading.value !== words[0] && reading.value !== words.at(-1)) return undefined;
  const { a, b, law } = bench.network.elements[load.element]!;
  const quantity = { a, b, scale: load.ratedVolts, magnitude: false, load: load.element };
  return { good: reading.value === words[0], size: `${load.kind} ${JSON.stringify(law)}`, quantity };
}
