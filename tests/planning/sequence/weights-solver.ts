/**
 * The optimum where readings overlap: every knowledge that steps can lead to, told apart by the weights left, the places open and the
 * tests done, each once; no bound but that a step which alone costs more than a known road is not followed. Written apart from the
 * planner: it keeps weights as they are, values them in minutes times weight, and remembers nothing but optima.
 */
import type { Problem } from '../../../src/planning/sequence/problem.js';

type Left = readonly (readonly [possibility: number, weight: number])[];

/** Expected minutes; undefined when there are more than so many states. */
export function weightsOptimum(problem: Problem, mostStates: number): number | undefined {
  const left = problem.possibilities.map(({ weight }, i) => [i, weight] as const);
  const solver = new WeightsSolver(problem, mostStates);
  const minutes = solver.least(left, 0, []);
  return minutes === undefined ? undefined : minutes / weightOf(left);
}

class WeightsSolver {
  private readonly known = new Map<string, number>();
  /** Per test, per possibility, what it shows as text. */
  private readonly rows: readonly (readonly string[])[];

  constructor(
    private readonly problem: Problem,
    private readonly mostStates: number,
  ) {
    this.rows = problem.tests.map(({ shows }) => shows.map((row) => row.join(' ')));
  }

  least(left: Left, open: number, done: readonly number[]): number | undefined {
    const { possibilities, tests, repairs } = this.problem;
    const still = done.filter((test) => this.sorts(test, left));
    const key = `${left.map(([i, weight]) => `${i} ${weight.toPrecision(9)}`).join()}|${open}|${still.join()}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    if (this.known.size >= this.mostStates) return undefined;
    const weight = weightOf(left);
    let best = Infinity;
    for (let test = 0; test < tests.length; test++) {
      if (still.includes(test) || !this.sorts(test, left)) continue;
      const [opening, after] = this.opened(tests[test]!.places, open);
      let minutes = weight * (tests[test]!.minutes + opening);
      for (const part of this.parts(test, left)) {
        if (minutes >= best) break;
        const rest = this.least(
          part,
          after,
          [...still, test].sort((a, b) => a - b),
        );
        if (rest === undefined) return undefined;
        minutes += rest;
      }
      best = Math.min(best, minutes);
    }
    for (const repair of new Set(left.map(([i]) => possibilities[i]!.repair))) {
      const { minutes, place } = repairs[repair]!;
      const wrong = left.filter(([i]) => possibilities[i]!.repair !== repair);
      const [opening, after] = this.opened(place === undefined ? [] : [place], open);
      const own = weight * opening + weightOf(wrong) * minutes;
      if (own >= best) continue;
      const rest = wrong.length === 0 ? 0 : this.least(wrong, after, still);
      if (rest === undefined) return undefined;
      best = Math.min(best, own + rest);
    }
    this.known.set(key, best);
    return best;
  }

  private sorts(test: number, left: Left): boolean {
    const rows = this.rows[test]!;
    return left.some(([i]) => rows[i] !== rows[left[0]![0]]);
  }

  private parts(test: number, left: Left): Left[] {
    const parts = new Map<number, [number, number][]>();
    for (const [i, weight] of left)
      for (const [outcome, chance] of this.problem.tests[test]!.shows[i]!) {
        const part = parts.get(outcome) ?? [];
        part.push([i, weight * chance]);
        parts.set(outcome, part);
      }
    return [...parts.values()];
  }

  private opened(places: readonly number[], open: number): [minutes: number, after: number] {
    let [minutes, after] = [0, open];
    for (const place of places) {
      if ((after >> place) & 1) continue;
      minutes += this.problem.places[place]!;
      after += 2 ** place;
    }
    return [minutes, after];
  }
}

function weightOf(left: Left): number {
  return left.reduce((sum, [, weight]) => sum + weight, 0);
}
