/**
 * Whether fuses hold or blow at a current. Between "surely holds" and "surely blows" both can happen, and neither may rule
 * anything out.
 */

import type { PartId } from '../circuit/circuit.js';
import type { Law, Network } from './network.js';
import type { Outcome } from './solver-types.js';

/** A blade fuse carries 110 % of its rating for at least 100 h (ISO 8820-3, from memory). */
export const HOLDS_UP_TO = 1.1;
/** At 200 % it opens within 5 s (ISO 8820-3, from memory). */
export const BLOWS_FROM = 2;
/**
 * Of several overloaded fuses in one path any may go first unless another carries more than three times its share: opening
 * times at one multiple scatter by a factor of ten and more (ISO 8820-3 time bands, from memory; the factor is our own).
 */
const RACE = 3;

/**
 * An electronic fuse is set to its limit, so it acts nearer to it: it holds up to 0.8 times and has shut down from 1.45 times the
 * stated current (drivers' data sheets give ±20 to ±40 %, from memory).
 */
const ELECTRONIC = HOLDS_UP_TO / 0.8;

/**
 * Currents are worked out at nominal values. On the vehicle they may be this many times as large: a motor takes a third less than
 * another one (common practice, no source), and what takes a tenth more than it should blows a fuse that stands at its rating.
 */
export const CURRENTS = { least: 0.67, most: 1.1 };
const EXACT = { least: 1, most: 1 };

type FuseLaw = Extract<Law, { kind: 'fuse' }>;

/** Current as a part of what `judgeFuses` counts as the rating. */
export function fuseLoad(law: FuseLaw, amps: number): number {
  return (amps / law.amps) * (law.resets === 'electronic' ? ELECTRONIC : 1);
}

/** What closes a fuse element again; undefined for one that melts. */
export function resetsOf(network: Network, fuse: number): FuseLaw['resets'] {
  const { law } = network.elements[fuse]!;
  return law.kind === 'fuse' ? law.resets : undefined;
}

/** Fuses, breakers and electronic fuses of a part, as a mask: those that a new item or a reset closes again. */
export function fusesOf(network: Network, part: PartId): number {
  return network.fuses.reduce(
    (mask, fuse, i) => (network.elements[fuse]!.part === part ? mask | (1 << i) : mask),
    0,
  );
}

/**
 * Fuses that are still open after the network has stood in this outcome: all that opened, but electronic ones whose module has
 * lost its supply meanwhile. (A breaker that cools by itself is the solver's business: it tries both.)
 */
export function stillOpen(network: Network, outcome: Pick<Outcome, 'blown' | 'pulledIn'>): number {
  return network.fuses.reduce((open, fuse, i) => {
    if (resetsOf(network, fuse) !== 'electronic') return open;
    const supply = network.coils.indexOf(network.sites.get(`${network.elements[fuse]!.part}:supply`) ?? -1);
    return supply >= 0 && ((outcome.pulledIn >>> supply) & 1) === 0 ? open & ~(1 << i) : open;
  }, outcome.blown);
}

/**
 * Fed by a chattering relay, a fuse holds at any current below this multiple: at 600 % it opens within 0.15 s (ISO 8820-3, from
 * memory), and a chattering contact is closed for a tenth of the time at least (our own figure).
 */
const BLOWS_IN_PULSES = 6;

export interface FuseVerdict {
  /** The fuses may all hold. */
  readonly mayHold: boolean;
  /** They may all hold when a chattering relay feeds them in pulses. */
  readonly mayHoldPulses: boolean;
  /** Masks of fuses that may open next. */
  readonly mayBlow: readonly number[];
}

const ALL_HOLD: FuseVerdict = { mayHold: true, mayHoldPulses: true, mayBlow: [] };

/**
 * @param loads current of each fuse as a part of its rating, bit i of the masks = entry i
 * @param range of the real currents, as parts of these
 */
export function judgeFuses(loads: ArrayLike<number>, range = EXACT): FuseVerdict {
  let most = 0;
  for (let i = 0; i < loads.length; i++) most = Math.max(most, loads[i]!);
  if (most * range.most <= HOLDS_UP_TO) return ALL_HOLD;
  const mayBlow: number[] = [];
  let together = 0;
  for (let i = 0; i < loads.length; i++) {
    if (loads[i]! * range.most <= HOLDS_UP_TO || loads[i]! * RACE < most) continue;
    mayBlow.push(1 << i);
    together |= 1 << i;
  }
  if (mayBlow.length > 1) mayBlow.push(together);
  const least = most * range.least;
  return { mayHold: least < BLOWS_FROM, mayHoldPulses: least < BLOWS_IN_PULSES, mayBlow };
}
