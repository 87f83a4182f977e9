/**
 * The corners of all tolerances that bring what is asked highest and lowest. In a network of resistors a voltage only rises or only falls
 * with each of them, so it is farthest at edges; but which edge hangs on all the others, and what the signs at nominal values say may be
 * wrong at the corner they lead to, beside a short above all. So it is looked again from there.
 */
import type { Solver } from '../network/solver.js';
import type { Outcome, Variant } from '../network/solver-types.js';

/** Rounds of looking again from the far corner; each moves on to a corner farther out. */
const MOST_ROUNDS = 4;

/** A corner of all tolerances with the network solved there. */
export interface Corner {
  readonly variant: Variant;
  readonly outcome: Outcome;
}

/** Which edge of each element raises what is asked, as things stand in an outcome. */
export type SignsAt = (outcome: Outcome, variant: Variant) => Int8Array;

/**
 * The network at the corners that bring what is asked highest and lowest: for each the corners on the way, the farthest last. There are
 * two at least, and the last two tell how far looking again from there still moved it.
 */
export function farCorners(solver: Solver, held: Variant, nominal: Outcome, signsAt: SignsAt): Corner[][] {
  return [1, -1].map((way) => farCorner(solver, held, nominal, signsAt, way, true));
}

/**
 * The corners on the way to the farthest.
 * @param way 1: highest, -1: lowest
 * @param again look again from there; without that there is one only
 */
export function farCorner(
  solver: Solver,
  held: Variant,
  nominal: Outcome,
  signsAt: SignsAt,
  way: number,
  again: boolean,
): Corner[] {
  const corners: Corner[] = [];
  let corner = signsAt(nominal, held).map((sign) => way * sign);
  for (;;) {
    const variant = { ...held, corner };
    const outcome = solver.solve({ ...variant, start: nominal })[0]!;
    corners.push({ variant, outcome });
    if (!again || corners.length === MOST_ROUNDS) return corners;
    const next = signsAt(outcome, variant).map((sign) => way * sign);
    if (next.every((edge, i) => edge === corner[i])) return [...corners, { variant, outcome }];
    corner = next;
  }
}
