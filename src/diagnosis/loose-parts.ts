/** Parts that may be anything over a wide range: what a module draws, how hard its data drivers drive, a coupling of rust and grease. */
import type { Network } from '../network/network.js';
import type { Solver } from '../network/solver.js';
import type { AppliedFault, Outcome, Variant } from '../network/solver-types.js';
import { farCorner } from './far-corners.js';

/** Highest over lowest ohms from which on a part counts as loose (our own figure: contacts and wires stay below). */
const LOOSE = 30;
/** Ohms below which even a loose part drops too little to matter: good contacts. */
const LEAST_OHMS = 50;
/** Volts of a coil, as parts of what they are at nominal values, to which loose parts may bring them (our own figures). */
const REACH = { low: 0.8, high: 10 };
/** The lower one where a fault joins what is apart: what a module lifts its own ground by hangs on all it draws. */
const JOINED_LOW = 0.2;

const known = new WeakMap<Network, readonly number[]>();

/** Numbers of the loose elements. */
export function loosePartsOf(network: Network): readonly number[] {
  let loose = known.get(network);
  if (loose === undefined) {
    loose = network.elements.flatMap(({ law, index }) =>
      'low' in law && 'high' in law && law.high >= LEAST_OHMS && law.high > LOOSE * law.low ? [index] : [],
    );
    known.set(network, loose);
  }
  return loose;
}

const hasLooseParts = (network: Network) => loosePartsOf(network).length > 0;

/** Does it join what is apart in the drawing? Only then do volts hang on sources that pull from both sides. */
function joins({ kind }: AppliedFault): boolean {
  return kind === 'bridge' || kind === 'crossed' || kind === 'rehung' || kind === 'stuck';
}

/**
 * What coils do where loose parts may bring their volts to the other side of an edge.
 * @param outcomes those with every part at its nominal value
 */
export function withLooseParts(
  network: Network,
  solver: Solver,
  variant: Variant,
  outcomes: readonly Outcome[],
): Outcome[] {
  if (network.coils.length === 0 || !hasLooseParts(network)) return [];
  const stood = (bit: number, pulled: boolean) =>
    outcomes.some(({ pulledIn }) => (((pulledIn >>> bit) & 1) === 1) === pulled);
  const looked = new Set<number>();
  const joined = variant.faults.some(joins);
  return outcomes.flatMap((outcome) =>
    solver.coilsNearEdge(variant, outcome, joined ? JOINED_LOW : REACH.low, REACH.high).flatMap((bit) => {
      const pulled = ((outcome.pulledIn >>> bit) & 1) === 1;
      // From its first outcome on: what other coils do beside it is followed from there.
      if (looked.has(bit) || stood(bit, !pulled)) return [];
      looked.add(bit);
      const { a, b } = network.elements[network.coils[bit]!]!;
      const held = { ...variant, forcedRelays: outcome.pulledIn, still: true };
      const across = outcome.volts[a]! < outcome.volts[b]! ? -1 : 1;
      // Only the corner that would move it is of interest.
      const way = pulled ? -across : across;
      const signsAt = (at: Outcome, there: Variant) => solver.adjoint(at, there, a, b).signs;
      const corners = farCorner(solver, held, outcome, signsAt, way, joined);
      const { variant: far, outcome: there } = corners.at(-1)!;
      if (!solver.coilsNearEdge(far, there, 1, 1).includes(bit)) return [];
      return solver.solve({ ...variant, corner: far.corner! });
    }),
  );
}
