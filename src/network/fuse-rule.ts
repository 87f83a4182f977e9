/**
 * Whether fuses hold or blow at a current. Between "surely holds" and "surely blows" both can happen, and neither may rule
 * anything out.
 */

/** A blade fuse carries 110 % of its rating for at least 100 h (ISO 8820-3, from memory). */
export const HOLDS_UP_TO = 1.1;
/** At 200 % it opens within 5 s (ISO 8820-3, from memory). */
export const BLOWS_FROM = 2;
/**
 * Of several overloaded fuses in one path any may go first unless another carries more than three times its share: opening
 * times at one multiple scatter by a factor of ten and more (ISO 8820-3 time bands, from memory; the factor is our own).
 */
const RACE = 3;

export interface FuseVerdict {
  /** The fuses may all hold. */
  readonly mayHold: boolean;
  /** Masks of fuses that may open next. */
  readonly mayBlow: readonly number[];
}

const ALL_HOLD: FuseVerdict = { mayHold: true, mayBlow: [] };

/** @param loads current of each fuse as a part of its rating, bit i of the masks = entry i */
export function judgeFuses(loads: ArrayLike<number>): FuseVerdict {
  let most = 0;
  for (let i = 0; i < loads.length; i++) most = Math.max(most, loads[i]!);
  if (most <= HOLDS_UP_TO) return ALL_HOLD;
  const mayBlow: number[] = [];
  let together = 0;
  for (let i = 0; i < loads.length; i++) {
    if (loads[i]! <= HOLDS_UP_TO || loads[i]! * RACE < most) continue;
    mayBlow.push(1 << i);
    together |= 1 << i;
  }
  if (mayBlow.length > 1) mayBlow.push(together);
  return { mayHold: most < BLOWS_FROM, mayBlow };
}
