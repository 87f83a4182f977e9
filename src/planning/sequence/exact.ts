/**
 * The cheapest road to the right repair there is: dynamic programming over states of knowledge, each kept with the least it can take
 * and the most it need take, depth first, what cannot be best left out by the bound. Exact, or within a slack that is shared out over
 * the branches, so that what hardly ever happens is not worked out to the last second. The states grow exponentially: it gives up at
 * a limit and says so.
 */
import type { Priced } from './bound.js';
import { Bound } from './bound.js';
import type { Move } from './greedy.js';
import { Greedy, movesOf, ownMinutes } from './greedy.js';
import type { Prepared } from './prepared.js';
import type { State } from './state.js';
import { afterWrong, branchesOf, keyOf, openingForRepair, settled } from './state.js';

export interface Valued {
  readonly move: Move;
  readonly minutes: number;
}

/** What is known of a state: minutes that the best road takes at least, and those of a road that is known. */
interface Range {
  least: number;
  most: number;
}

interface Option {
  readonly move: Move;
  /** Minutes of the step itself, those of a wrong try by its probability. */
  readonly own: number;
  readonly branches: readonly { readonly chance: number; readonly state: State; readonly least: number }[];
  /** At least so many minutes this way. */
  readonly least: number;
  readonly prices: readonly Priced[];
}

class GaveUp extends Error {}

/** Roads known beforehand may take so many times the states. */
const MOST_GREEDY = 4;
/** Minutes that are rounding only. */
const SAME = 1e-9;

export class Exact {
  /** States looked into. */
  states = 0;
  private readonly known = new Map<string, Range>();
  private readonly bound: Bound;
  private readonly greedy: Greedy;

  /**
   * @param mostStates after so many states it gives up
   * @param slack expected minutes by which the road found may be longer than the best
   */
  constructor(
    private readonly prepared: Prepared,
    private readonly mostStates: number,
    private readonly slack = 0,
  ) {
    this.bound = new Bound(prepared);
    this.greedy = new Greedy(prepared, false, MOST_GREEDY * mostStates);
  }

  /**
   * The best steps with their expected minutes, best first; undefined when the limit was reached.
   * @param wanted how many; fewer when there are no more
   * @param budget a road of so many minutes is known: only steps whose roads are no longer are looked for, and with a slack there may
   *   be none
   */
  best(state: State, wanted: number, budget = Infinity): Valued[] | undefined {
    const best: Valued[] = [];
    const limit = () => (best.length < wanted ? budget + SAME : best.at(-1)!.minutes - SAME);
    try {
      for (const option of this.options(state)) {
        if (option.least > limit()) break;
        const { most } = this.through(option, limit(), this.slack);
        if (most > limit()) continue;
        best.push({ move: option.move, minutes: most });
        best.sort((a, b) => a.minutes - b.minutes);
        best.length = Math.min(best.length, wanted);
      }
    } catch (error) {
      if (error instanceof GaveUp) return undefined;
      throw error;
    }
    return best;
  }

  /** Narrows what is known of a state until it is within the slack, or takes more than the limit at least. */
  private solve(
    state: State,
    limit: number,
    slack: number,
    inherited: number,
    near?: readonly Priced[],
  ): Range {
    const { prepared } = this;
    if (settled(prepared, state)) {
      const minutes = openingForRepair(prepared, prepared.repairOf[state.who[0]!]!, state.open);
      return { least: minutes, most: minutes };
    }
    const key = keyOf(prepared, state);
    let range = this.known.get(key);
    if (range === undefined) {
      const least = Math.max(inherited, this.bound.oneStep(state));
      this.known.set(key, (range = { least, most: this.greedy.minutes(state) }));
    }
    if (range.most - range.least <= slack + SAME || range.least > limit) return range;
    if (++this.states > this.mostStates) throw new GaveUp();
    let least = Infinity;
    for (const option of this.options(state, near)) {
      const allowed = Math.min(limit, range.most - slack - SAME);
      if (option.least > allowed) {
        least = Math.min(least, option.least);
        break;
      }
      const found = this.through(option, allowed, slack);
      least = Math.min(least, found.least);
      range.most = Math.min(range.most, found.most);
    }
    range.least = Math.max(range.least, Math.min(least, range.most));
    return range;
  }

  /** The same for a step and all that follows it; most: Infinity when it takes more than the limit. */
  private through({ own, branches, least: bounded, prices }: Option, limit: number, slack: number): Range {
    let most = own;
    let least = bounded;
    let slackLeft = slack;
    let branchesLeft = branches.length;
    for (const { chance, state, least: before } of branches) {
      const allowed = before + (limit - least) / chance;
      const range = this.solve(state, allowed, slackLeft / (branchesLeft-- * chance), before, prices);
      most += chance * range.most;
      least += chance * (range.least - before);
      slackLeft = Math.max(0, slackLeft - chance * (range.most - range.least));
      if (range.least > allowed || least > limit)
        return { least: Math.max(least, limit + SAME), most: Infinity };
    }
    return { least, most };
  }

  /** Every step with at least how long it takes, the most promising first. */
  private options(state: State, near?: readonly Priced[]): Option[] {
    const { prepared, bound } = this;
    const prices = bound.pricesOf(state, near);
    return movesOf(prepared, state)
      .map((move) => this.option(state, move, prices))
      .sort((a, b) => a.least - b.least || b.move - a.move);
  }

  private option(state: State, move: Move, prices: readonly Priced[]): Option {
    const { prepared, bound } = this;
    const own = ownMinutes(prepared, state, move);
    const reached = move < 0 ? [afterWrong(prepared, -1 - move, state)] : branchesOf(prepared, move, state);
    const branches = reached
      // Nothing is left after the only repair.
      .filter(({ state: next }) => next.who.length > 0)
      .map(({ chance, state: next }) => ({ chance, state: next, least: bound.atLeast(next, prices) }))
      .sort((a, b) => b.chance - a.chance);
    const least = branches.reduce((sum, branch) => sum + branch.chance * branch.least, own);
    return { move, own, branches, least, prices };
  }
}
