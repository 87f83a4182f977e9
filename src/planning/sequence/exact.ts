/**
 * The cheapest road to the right repair there is: dynamic programming over states of knowledge, each solved once, depth first, what
 * cannot be best left out by the bound. Exact, but the states grow exponentially: it gives up at a limit and says so.
 */
import type { Priced } from './bound.js';
import { Bound } from './bound.js';
import type { Move } from './greedy.js';
import { movesOf } from './greedy.js';
import type { Prepared } from './prepared.js';
import type { Branch, State } from './state.js';
import { afterWrong, branchesOf, keyOf, minutesOfTest, openingForRepair, settled } from './state.js';

export interface Valued {
  readonly move: Move;
  readonly minutes: number;
}

/** What is known of a state: its minutes, or that they are at least so many. */
interface Entry {
  minutes: number;
  exact: boolean;
}

interface Option {
  readonly move: Move;
  /** Minutes of the step itself, those of a wrong try by its probability. */
  readonly own: number;
  readonly branches: readonly { readonly chance: number; readonly state: State; readonly least: number }[];
  /** At least so many minutes this way. */
  readonly least: number;
}

class GaveUp extends Error {}

/** Minutes that are rounding only. */
const SAME = 1e-9;

export class Exact {
  /** States looked into. */
  states = 0;
  private readonly known = new Map<string, Entry>();
  private readonly bound: Bound;

  /** @param mostStates after so many states it gives up */
  constructor(
    private readonly prepared: Prepared,
    private readonly mostStates: number,
  ) {
    this.bound = new Bound(prepared);
  }

  /**
   * The best steps with their exact expected minutes, best first; undefined when the limit was reached.
   * @param wanted how many; fewer when there are no more
   * @param budget a road of so many minutes is known: only those that are no longer are looked for
   */
  best(state: State, wanted: number, budget = Infinity): Valued[] | undefined {
    const best: Valued[] = [];
    const limit = () => (best.length < wanted ? budget + SAME : best.at(-1)!.minutes - SAME);
    try {
      for (const option of this.options(state)) {
        if (option.least > limit()) break;
        const minutes = this.through(option, limit());
        if (minutes > limit()) continue;
        best.push({ move: option.move, minutes });
        best.sort((a, b) => a.minutes - b.minutes);
        best.length = Math.min(best.length, wanted);
      }
    } catch (error) {
      if (error instanceof GaveUp) return undefined;
      throw error;
    }
    return best;
  }

  /** Minutes from a state on if they are no more than the limit; otherwise something above the limit that they are at least. */
  private solve(state: State, limit: number, inherited: number): number {
    const { prepared } = this;
    if (settled(prepared, state))
      return openingForRepair(prepared, prepared.repairOf[state.who[0]!]!, state.open);
    const key = keyOf(prepared, state);
    let entry = this.known.get(key);
    if (entry === undefined) {
      const least = Math.max(inherited, this.bound.oneStep(state));
      this.known.set(key, (entry = { minutes: least, exact: false }));
    }
    if (entry.exact || entry.minutes > limit) return entry.minutes;
    if (++this.states > this.mostStates) throw new GaveUp();
    let best = Infinity;
    let least = Infinity;
    for (const option of this.options(state)) {
      const allowed = Math.min(limit, best - SAME);
      if (option.least > allowed) {
        least = Math.min(least, option.least);
        break;
      }
      const minutes = this.through(option, allowed);
      if (minutes <= allowed) best = minutes;
      else least = Math.min(least, minutes);
    }
    entry.exact = best <= limit;
    entry.minutes = entry.exact ? best : Math.max(entry.minutes, least);
    return entry.minutes;
  }

  private through({ own, branches, least }: Option, limit: number): number {
    let minutes = own;
    let atLeast = least;
    for (const { chance, state, least: branchLeast } of branches) {
      const allowed = branchLeast + (limit - atLeast) / chance;
      const solved = this.solve(state, allowed, branchLeast);
      minutes += chance * solved;
      atLeast += chance * (solved - branchLeast);
      if (solved > allowed || atLeast > limit) return Math.max(atLeast, limit + SAME);
    }
    return minutes;
  }

  /** Every step with at least how long it takes, the most promising first. */
  private options(state: State): Option[] {
    const { prepared, bound } = this;
    const prices = bound.pricesOf(state);
    return movesOf(prepared, state)
      .map((move) => (move < 0 ? this.tried(state, -1 - move, prices) : this.tested(state, move, prices)))
      .sort((a, b) => a.least - b.least || b.move - a.move);
  }

  private tested(state: State, test: number, prices: readonly Priced[]): Option {
    const own = minutesOfTest(this.prepared, test, state);
    return this.option(test, own, branchesOf(this.prepared, test, state), prices);
  }

  private tried(state: State, repair: number, prices: readonly Priced[]): Option {
    const wrong = afterWrong(this.prepared, repair, state);
    const { minutes } = this.prepared.repairs[repair]!;
    const own = openingForRepair(this.prepared, repair, state.open) + wrong.chance * minutes;
    return this.option(-1 - repair, own, wrong.state.who.length === 0 ? [] : [wrong], prices);
  }

  private option(move: Move, own: number, reached: readonly Branch[], prices: readonly Priced[]): Option {
    const branches = reached
      .map(({ chance, state }) => ({ chance, state, least: this.bound.atLeast(state, prices) }))
      .sort((a, b) => b.chance - a.chance);
    const least = branches.reduce((sum, branch) => sum + branch.chance * branch.least, own);
    return { move, own, branches, least };
  }
}
