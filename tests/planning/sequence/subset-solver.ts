/**
 * The optimum over sets, without bounds: every possibility that may show several readings is unfolded into one for each reading it
 * would show in every test, so that each test sorts for certain; then the least minutes of every set that tests can leave, each set
 * and its open places once. Written apart from the planner: other states, no weights that change, no order of search, no budget.
 */
import type { Problem } from '../../../src/planning/sequence/problem.js';

interface Unfolded {
  readonly weight: number;
  readonly repair: number;
  /** Per test the outcome it shows. */
  readonly shows: readonly number[];
}

/** Sets are bits of one number. */
const MOST = 30;

/** @throws RangeError when the problem unfolds into too many */
export function subsetOptimum(problem: Problem): { minutes: number; states: number } {
  const all = problem.possibilities.flatMap((_, i) => unfold(problem, i));
  if (all.length > MOST) throw new RangeError(`unfolds into ${all.length}, at most ${MOST}`);
  const solver = new SubsetSolver(problem, all);
  const total = all.reduce((sum, { weight }) => sum + weight, 0);
  const minutes = solver.least(2 ** all.length - 1, 0) / total;
  return { minutes, states: solver.states };
}

export function unfold({ possibilities, tests }: Problem, i: number): Unfolded[] {
  const { weight, repair } = possibilities[i]!;
  let unfolded: Unfolded[] = [{ weight, repair, shows: [] }];
  for (const { shows } of tests)
    unfolded = unfolded.flatMap((entry) =>
      shows[i]!.map(([outcome, chance]) => ({
        ...entry,
        weight: entry.weight * chance,
        shows: [...entry.shows, outcome],
      })),
    );
  return unfolded;
}

class SubsetSolver {
  private readonly known = new Map<number, number>();
  /** Per test, per outcome, the set that shows it. */
  private readonly parts: readonly (readonly number[])[];
  /** Per repair the set it mends. */
  private readonly mends: readonly number[];

  constructor(
    private readonly problem: Problem,
    private readonly all: readonly Unfolded[],
  ) {
    const setOf = (holds: (entry: Unfolded) => boolean) =>
      all.reduce((set, entry, k) => (holds(entry) ? set + 2 ** k : set), 0);
    this.parts = problem.tests.map((_, t) => {
      const outcomes = [...new Set(all.map(({ shows }) => shows[t]!))];
      return outcomes.map((outcome) => setOf(({ shows }) => shows[t] === outcome));
    });
    this.mends = problem.repairs.map((_, repair) => setOf((entry) => entry.repair === repair));
  }

  get states(): number {
    return this.known.size;
  }

  /** Expected minutes times the weight of the set. */
  least(set: number, open: number): number {
    const key = set * 2 ** this.problem.places.length + open;
    let best = this.known.get(key);
    if (best !== undefined) return best;
    const weight = this.weightOf(set);
    best = Infinity;
    this.problem.tests.forEach(({ minutes, places }, t) => {
      const left = this.parts[t]!.map((part) => part & set).filter((part) => part !== 0);
      if (left.length < 2) return;
      const [opening, after] = this.opened(places, open);
      const rest = left.reduce((sum, part) => sum + this.least(part, after), 0);
      best = Math.min(best!, weight * (minutes + opening) + rest);
    });
    this.problem.repairs.forEach(({ minutes, place }, repair) => {
      const mended = this.mends[repair]! & set;
      if (mended === 0) return;
      const wrong = set & ~mended;
      const [opening, after] = this.opened(place === undefined ? [] : [place], open);
      const own = weight * opening + (wrong === 0 ? 0 : this.weightOf(wrong) * minutes);
      // Tried alone it costs more than another road: what follows need not be known.
      if (own >= best!) return;
      best = Math.min(best!, own + (wrong === 0 ? 0 : this.least(wrong, after)));
    });
    this.known.set(key, best);
    return best;
  }

  private weightOf(set: number): number {
    let weight = 0;
    for (let k = 0; k < this.all.length; k++) if ((set >> k) & 1) weight += this.all[k]!.weight;
    return weight;
  }

  private opened(places: readonly number[], open: number): [minutes: number, after: number] {
    let minutes = 0;
    let after = open;
    for (const place of places) {
      if ((after >> place) & 1) continue;
      minutes += this.problem.places[place]!;
      after += 2 ** place;
    }
    return [minutes, after];
  }
}
