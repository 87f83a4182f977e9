/** Two loads seen side by side, one good and one dead: an observation of its own, beside what each says alone. */
import type { LoadKind } from '../network/network.js';
import type { Finding } from '../session/case.js';
import type { Observation, Quantity } from './observe.js';
import { probe } from './observe.js';
import { sightBand, WORDS } from './sights.js';
import { sourceFor } from './source-for.js';
import type { Workbench } from './workbench.js';

/**
 * One load works and another of the same kind and size is dead, both in the same set-up: whatever reaches both alike cannot be
 * the reason. Seen one by one, a supply just between "off" and "lit" would pass for both. Of a lamp that flashes nobody says how brightly,
 * and the sun may hide another one at the same few volts: that only speaks against what reaches both.
 * @param together findings of the same set-up, with nothing touched between
 * @param unmoved those with no control worked between either: a relay that has been elsewhere may stand otherwise than it did
 */
export function contrast(
  bench: Workbench,
  finding: Finding,
  together: readonly Finding[],
  unmoved: readonly Finding[],
  others: readonly Finding[],
): Observation[] {
  const mine = standing(bench, finding);
  if (mine === undefined) return [];
  // Each rival once, in whatever order they were seen.
  const rivals = new Map<number, Standing & { readonly moved: boolean }>();
  for (const other of together) {
    const moved = !unmoved.includes(other);
    if (moved && bench.network.coils.length > 0) continue;
    const theirs = standing(bench, other);
    if (theirs === undefined || theirs.quantity.load === mine.quantity.load) continue;
    if (theirs.good !== mine.good && theirs.size === mine.size)
      rivals.set(theirs.quantity.a, { ...theirs, moved });
  }
  const asked = probe(bench, finding.setUp, finding.reading);
  if (asked === undefined) return [];
  const battery = sourceFor(bench, finding, others);
  return [...rivals.values()].map((rival) => {
    const [bright, dead] = mine.good ? [mine, rival] : [rival, mine];
    return {
      ...asked,
      finding: finding.number,
      kind: 'contrast',
      setUp: finding.setUp,
      ...battery,
      quantity: { ...bright.quantity, magnitude: false, minus: dead.quantity },
      low: mine.apart,
      high: Infinity,
      shown: bright.flashes ? 'one flashes and one like it is dead' : 'one works and one is dead',
      hard: !bright.flashes,
      moved: rival.moved,
    };
  });
}

/**
 * Kinds whose answer rises smoothly with their voltage. Two motors, horns or relays at the same low voltage may well differ: one
 * starts, the other stalls; a load of which only the watts are known may have any threshold, and an LED the wrong way round is
 * dark at full volts.
 */
const COMPARABLE: ReadonlySet<LoadKind> = new Set(['lamp', 'heater']);

interface Standing {
  readonly good: boolean;
  readonly flashes: boolean;
  readonly size: string;
  readonly quantity: Quantity;
  /** How much more of its rated volts the good one must have: the gap between the words. */
  readonly apart: number;
}

/** A load seen plainly good or plainly dead, and what is of its size. */
function standing(bench: Workbench, finding: Finding): Standing | undefined {
  const { reading } = finding;
  if (reading.kind !== 'load' || finding.evidence === 'told') return undefined;
  const load = bench.network.loads.get(reading.load)!;
  if (!COMPARABLE.has(load.kind)) return undefined;
  const words = WORDS[load.kind];
  const flashes = reading.value === 'flashes' || reading.value === 'flashes fast';
  const good = flashes || reading.value === words[0];
  if (!good && reading.value !== words.at(-1)) return undefined;
  const { a, b, law } = bench.network.elements[load.element]!;
  const quantity = { a, b, scale: load.ratedVolts, magnitude: false, load: load.element, seen: load.kind };
  const apart = sightBand(load.kind, words[0]!).low - sightBand(load.kind, words.at(-1)!).high;
  return {
    good,
    flashes,
    size: `${load.kind} ${JSON.stringify(law)}`,
    quantity,
    apart: Math.max(0, apart),
  };
}
