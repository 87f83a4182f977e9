/** The same covering problem stated as a mixed-integer programme for HiGHS, an independent open-source solver. */
import loadHighs, { type Highs } from 'highs';

export async function startHighs(): Promise<Highs> {
  // The package's types describe its CommonJS build; what Node imports here is the function itself.
  return (loadHighs as unknown as typeof loadHighs.default)();
}

/** Least cost of a cover, proved to a zero gap. */
export function highsCost(
  highs: Highs,
  universe: number,
  sets: readonly (readonly number[])[],
  costs: readonly number[],
): number {
  const solution = highs.solve(coverProgramme(universe, sets, costs), { mip_rel_gap: 0, mip_abs_gap: 0 });
  if (solution.Status !== 'Optimal') throw new Error(`HiGHS stopped with: ${solution.Status}`);
  return solution.ObjectiveValue;
}

/** CPLEX LP text: minimise the cost of the chosen sets so that every element is in at least one of them. */
export function coverProgramme(
  universe: number,
  sets: readonly (readonly number[])[],
  costs: readonly number[],
): string {
  const rows = Array.from({ length: universe }, (_, e) => {
    const terms = sets.flatMap((set, s) => (set.includes(e) ? [`x${s}`] : []));
    return ` r${e}: ${terms.join(' + ')} >= 1`;
  });
  return [
    'Minimize',
    ` cost: ${costs.map((cost, s) => `${cost} x${s}`).join('\n + ')}`,
    'Subject To',
    ...rows.map((row) => row.replace(/(( \S+ \+){10})/g, '$1\n')),
    'Binary',
    ...sets.map((_, s) => ` x${s}`),
    'End',
    '',
  ].join('\n');
}
