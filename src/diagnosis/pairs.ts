/**
 * Two faults at once, when no single one explains the findings. Every pair is judged in the box of both severities. Set covers
 * only give the order: a pair whose members each explain some of the abnormal findings comes first; they never exclude, since
 * two faults can read as neither does alone.
 */
import { irredundantCovers } from './covers/covers.js';
import type { Evidence, EvidenceStep } from './evidence-types.js';
import type { Fault } from './faults.js';
import type { Observation } from './observe.js';
import type { Verdict } from './verdict.js';
import { judge } from './verdict.js';
import type { Workbench } from './workbench.js';

/** Pairs judged before the search says that it is not complete. */
const MOST_PAIRS = 150;

export interface PairSearch {
  readonly standing: readonly Verdict[];
  readonly examined: { readonly done: number; readonly of: number };
}

export function judgePairs(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  abnormal: readonly Observation[],
): PairSearch {
  const alone = faults.map((fault) => explainedAlone(bench, fault, evidence, abnormal));
  const covering = new Set(
    irredundantCovers(abnormal.length, alone, 2, MOST_PAIRS).covers.map((cover) => cover.join()),
  );
  const pairs: { a: number; b: number; covers: boolean; weight: number }[] = [];
  for (let a = 0; a < faults.length; a++) {
    for (let b = a + 1; b < faults.length; b++) {
      if (faults[a]!.site === faults[b]!.site) continue;
      const covers = covering.has(`${a},${b}`) || covering.has(`${a}`) || covering.has(`${b}`);
      pairs.push({ a, b, covers, weight: faults[a]!.weight * faults[b]!.weight });
    }
  }
  pairs.sort((x, y) => Number(y.covers) - Number(x.covers) || y.weight - x.weight);
  const tried = pairs.slice(0, MOST_PAIRS);
  const standing = tried
    .map(({ a, b }) => judge(bench, [faults[a]!, faults[b]!], evidence))
    .filter((verdict) => verdict.fall === undefined);
  return { standing, examined: { done: tried.length, of: pairs.length } };
}

/** Which abnormal findings the fault explains when they are taken one by one. */
function explainedAlone(
  bench: Workbench,
  fault: Fault,
  evidence: Evidence,
  abnormal: readonly Observation[],
): number[] {
  const explained: number[] = [];
  abnormal.forEach((observation, i) => {
    const steps: EvidenceStep[] = [{ kind: 'observation', observation, symptom: 'present' }];
    if (judge(bench, [fault], { ...evidence, steps }).fall === undefined) explained.push(i);
  });
  return explained;
}
