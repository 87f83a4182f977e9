/**
 * Two faults at once, searched without any cleverness: every pair of faults at every point of a fine grid of severities, every
 * part at its nominal value, one plain solve a reading. Whatever fits there must be among the explanations of the reasoner.
 */
import { diagnose } from '../../src/diagnosis/diagnose.js';
import { gather } from '../../src/diagnosis/evidence.js';
import type { Fault } from '../../src/diagnosis/faults.js';
import { hypothesisId } from '../../src/diagnosis/fault-info.js';
import type { Observation } from '../../src/diagnosis/observe.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { AppliedFault } from '../../src/network/solver-types.js';
import type { Case } from '../../src/session/case.js';
import type { Event } from '../../src/session/events.js';
import { foldCase } from '../../src/session/fold.js';
import { simulate } from '../diagnosis/simulated.js';

/** Points of an ohms scale of about eleven decades: two a decade; other scales are cut in so many steps. */
const STEPS = 8;

function severities({ scale }: Fault): readonly number[] {
  const { edges, unit } = scale;
  if (unit === 'none') return [edges[0]!];
  const [low, high] = [edges[0]!, edges.at(-1)!];
  if (unit !== 'ohm') return Array.from({ length: STEPS }, (_, i) => low + ((high - low) * i) / (STEPS - 1));
  const points = Math.ceil(2 * Math.log10(Math.min(high, 1e7) / low)) + 1;
  const grid = Array.from({ length: points }, (_, i) => low * 10 ** (i / 2));
  return high > 1e7 ? [...grid, high] : grid;
}

export interface PairGrid {
  readonly pairs: number;
  readonly points: number;
  /** Pairs for which some point of the grid fits. */
  readonly fitting: number;
  /** Of these, pairs that the reasoner neither has nor explains by one of their members alone. */
  readonly missed: readonly string[];
}

/** Is the session of this seed one that no single fault explains? Only there do pairs matter. */
export async function needsTwo(bench: Workbench, seed: number, readings: number): Promise<boolean> {
  return diagnose(bench, await sessionOf(bench, seed, readings)).paired;
}

async function sessionOf(bench: Workbench, seed: number, readings: number): Promise<Case> {
  const { before, findings } = await simulate(bench, seed, 2, readings);
  const recorded = [...before, ...findings].map((event: Event, i) => ({ number: i + 1, at: '', event }));
  return foldCase(bench.circuit, recorded);
}

/** @param seed of the simulated session: two hidden faults, `readings` findings, nothing touched */
export async function comparePairs(bench: Workbench, seed: number, readings: number): Promise<PairGrid> {
  const session = await sessionOf(bench, seed, readings);
  const observations = gather(bench, session).steps.flatMap((step): Observation[] =>
    step.kind === 'observation' && step.observation.hard ? [step.observation] : [],
  );
  const diagnosis = diagnose(bench, session, { allPairs: true });
  const alone = new Set(
    diagnosis.suspects.flatMap(({ faults }) => (faults.length === 1 ? [faults[0]!.id] : [])),
  );
  const pairs = diagnosis.pairsExamined;
  if (pairs.done !== pairs.of) throw new Error(`${pairs.done} of ${pairs.of} pairs were judged`);
  const kept = new Set(diagnosis.survivingPairs);
  const missed: string[] = [];
  let [count, points, fitting] = [0, 0, 0];
  bench.faults.forEach((a, i) => {
    for (const b of bench.faults.slice(i + 1)) {
      if (a.site === b.site) continue;
      count += 1;
      let fits = false;
      for (const first of severities(a)) {
        for (const second of severities(b)) {
          points += 1;
          fits ||= agrees(bench, observations, [a.apply(first), b.apply(second)]);
          if (fits) break;
        }
        if (fits) break;
      }
      if (!fits) continue;
      fitting += 1;
      const id = hypothesisId([a, b]);
      if (!kept.has(id) && !alone.has(a.id) && !alone.has(b.id)) missed.push(id);
    }
  });
  return { pairs: count, points, fitting, missed };
}

/** Does some way the network can stand give every reading, one by one, with every part at its nominal value? */
function agrees(
  bench: Workbench,
  observations: readonly Observation[],
  faults: readonly AppliedFault[],
): boolean {
  return observations.every(({ added, present, source, quantity, low, high }) => {
    const applied = [{ kind: 'law', element: bench.source, law: source } as const, ...faults];
    const outcomes = bench.solver(added).solve({ present, faults: applied, blown: 0 });
    return outcomes.some(({ volts }) => {
      const across = (volts[quantity.a]! - volts[quantity.b]!) / quantity.scale;
      const shown = quantity.magnitude ? Math.abs(across) : across;
      const { minus } = quantity;
      const apart = minus === undefined ? 0 : Math.abs(volts[minus.a]! - volts[minus.b]!) / minus.scale;
      const value = minus === undefined ? shown : Math.abs(across) - apart;
      return value >= low && value <= high;
    });
  });
}
