/**
 * Looks some steps ahead and supposes that after them one goes on in the plain way (roll-out: Bertsekas, Tsitsiklis & Wu 1997; for
 * sequences of tests Tu & Pattipati 2003, from memory). Deterministic and bounded by work, not by a clock: each deeper look is begun
 * only while there is work left, and what it found counts as far as it got.
 */
import type { Valued } from './exact.js';
import type { Move } from './greedy.js';
import { Greedy, minutesVia, movesOf, ownMinutes } from './greedy.js';
import type { Prepared } from './prepared.js';
import type { State } from './state.js';
import { keyOf, settled } from './state.js';

/** Steps looked at before the plain way goes on, at most. */
const DEEPEST = 3;
/** At each state below the first step so many steps are looked at further, those best by a shallower look. */
const WIDTH = 4;

/** With more repairs than this the plain way is the plainest, for two rules lead to too many states. */
const LARGE = 20;
/** The first look may take so many times the states of the deeper ones before trying alone is supposed. */
const MOST_FIRST = 12;

class OutOfWork extends Error {}

export class RollOut {
  private readonly greedy: Greedy;
  private readonly known = new Map<string, number>();

  /** @param mostStates states to value the plain way before no deeper look is begun; the first look takes twelve times as many at most */
  constructor(
    private readonly prepared: Prepared,
    private readonly mostStates: number,
  ) {
    const large = prepared.repairs.length > LARGE;
    this.greedy = new Greedy(prepared, large, MOST_FIRST * (mostStates + 1));
  }

  /** Steps, best first, with the expected minutes of the road found: no road is known that is shorter. */
  best(state: State): Valued[] {
    const { prepared } = this;
    // First, so that where the work runs out at least the plain way is valued for what it is.
    this.greedy.minutes(state);
    const found = this.oneAhead(state, 2 * WIDTH);
    try {
      for (let depth = 2; depth <= DEEPEST; depth++) {
        for (const valued of found) {
          const minutes = minutesVia(prepared, state, valued.move, (next) => this.minutes(next, depth - 1));
          valued.minutes = Math.min(valued.minutes, minutes);
        }
        found.sort(shorter);
      }
    } catch (error) {
      if (!(error instanceof OutOfWork)) throw error;
      found.sort(shorter);
    }
    return found;
  }

  /** Expected minutes when the next so many steps are chosen by looking ahead, the rest the plain way. */
  private minutes(state: State, depth: number): number {
    const { prepared, greedy } = this;
    if (depth === 0 || settled(prepared, state)) return greedy.minutes(state);
    const key = `${depth}${keyOf(prepared, state)}`;
    let best = this.known.get(key);
    if (best !== undefined) return best;
    if (greedy.valued > this.mostStates) throw new OutOfWork();
    const moves = this.oneAhead(state, depth > 1 ? WIDTH : 1);
    best = Math.min(greedy.minutes(state), moves[0]!.minutes);
    if (depth > 1) {
      for (const { move } of moves)
        best = Math.min(
          best,
          minutesVia(prepared, state, move, (next) => this.minutes(next, depth - 1)),
        );
    }
    this.known.set(key, best);
    return best;
  }

  /** The best steps when the plain way follows, best first. */
  private oneAhead(state: State, wanted: number): { move: Move; minutes: number }[] {
    const { prepared, greedy } = this;
    const found: { move: Move; minutes: number }[] = [];
    for (const move of movesOf(prepared, state)) {
      if (found.length === wanted && ownMinutes(prepared, state, move) >= found.at(-1)!.minutes) continue;
      found.push({ move, minutes: greedy.minutesOf(state, move) });
      found.sort(shorter);
      found.length = Math.min(found.length, wanted);
    }
    return found;
  }
}

function shorter(a: Valued, b: Valued): number {
  return a.minutes - b.minutes || order(a.move) - order(b.move);
}

/** Among equals a test before a try. */
function order(move: Move): number {
  return move < 0 ? 1e6 - move : move;
}
