/** Items that can be pulled: measured on their own, exchanged for their like or for a known-good one, or replaced by a test lamp. */
import type { Part } from '../../circuit/circuit.js';
import { isFuseLike } from '../../session/fuse-places.js';
import { unlikeWhy } from '../../session/like-for-like.js';
import type { SetUp } from '../../session/setup.js';
import { atRest, KNOWN_GOOD } from '../../session/setup.js';
import type { Candidate, Scope } from '../candidate.js';
import { BLANK } from '../candidate.js';
import { isPluggedIn } from './openings.js';

/** Ohms across the item's own terminals, on the bench. */
export function itemsOut({ bench, parts }: Scope): Candidate[] {
  const rest = atRest(bench.circuit);
  return parts.flatMap((part) =>
    ownTerminals(part).map(([from, to]): Candidate => {
      const [red, black] = [`${part.id}.${from}i`, `${part.id}.${to}i`];
      return {
        line: `ohms ${red} ${black}`,
        words: `take ${part.id} (${part.label}) out; ohms across its terminals ${from} and ${to}`,
        setUp: { ...rest, out: new Set([part.id]) },
        reading: { kind: 'ohms', red, black, value: BLANK },
        bare: 'ohms',
        at: [part.id],
      };
    }),
  );
}

function ownTerminals(part: Part): readonly (readonly [string, string])[] {
  if (part.type === 'fuse') return [['1', '2']];
  if (part.type === 'lamp') return part.filaments.map(({ terminal }) => [terminal, '31'] as const);
  if (part.type === 'relay') {
    const contacts = part.changeOver
      ? [['30', '87'] as const, ['30', '87a'] as const]
      : [['30', '87'] as const];
    return [['86', '85'], ...contacts];
  }
  return [];
}

/**
 * Swapped with its like, or exchanged for a known-good item, with the eyes on a load that failed. Minutes more than a reading,
 * and it disturbs two places: for what a meter cannot tell.
 * @param fuses false where a short may be about: it would cost the next fuse
 */
export function exchanges({ bench, conditions, parts }: Scope, fuses: boolean): Candidate[] {
  const { circuit } = bench;
  const plugged = parts.filter((part) => isPluggedIn(part) && (fuses || !isFuseLike(circuit, part.id)));
  return conditions.flatMap(({ setUp, failed }) => {
    const [watched] = failed;
    if (watched === undefined || setUp.engine === 'running') return [];
    const then = (fitted: SetUp['fitted'], words: string): Candidate => ({
      line: watched,
      words: `${words}, then watch ${watched}`,
      setUp: { ...setUp, fitted },
      reading: { kind: 'load', load: watched, value: 'off' },
      bare: 'watch',
      at: [],
    });
    const swaps = plugged.flatMap((part, i) =>
      plugged
        .slice(i + 1)
        .filter((other) => unlikeWhy(circuit, part.id, other.id) === undefined)
        .map((other) =>
          then(
            new Map([
              [part.id, other.id],
              [other.id, part.id],
            ]),
            `swap ${part.id} (${part.label}) with ${other.id} (${other.label})`,
          ),
        ),
    );
    const good = plugged.map((part) =>
      then(new Map([[part.id, KNOWN_GOOD]]), `fit a known-good item as ${part.id} (${part.label})`),
    );
    return [...swaps, ...good];
  });
}

/** A test lamp in place of a fuse limits what a short can draw: lit, it shows the short without the next fuse. */
export function fuseLamps({ bench, conditions, parts }: Scope): Candidate[] {
  return conditions.flatMap(({ setUp }) => {
    if (setUp.engine === 'running') return [];
    return parts
      .filter((part) => isFuseLike(bench.circuit, part.id))
      .map((part): Candidate => {
        const reading = { kind: 'fuse lamp', part: part.id, value: 'off' } as const;
        return {
          line: `fuselamp ${part.id}`,
          words: `test lamp in place of ${part.id} (${part.label}): is it lit?`,
          setUp: { ...setUp, out: new Set([part.id]), lamps: new Set([part.id]) },
          reading,
          bare: 'watch',
          at: [part.id],
        };
      });
  });
}
