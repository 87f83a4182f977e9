/**
 * Two severities at which a pair of faults fits a whole session: where it fitted last, else a few likely ones. Each is walked on
 * from finding to finding, so that a long session is not walked through anew after every one of them.
 */
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import { hypothesisId } from './fault-info.js';
import type { Remembered } from './hypotheses.js';
import { isBeginning, walkOn } from './hypotheses.js';
import { FIXED } from './severity.js';
import type { Verdict } from './verdict.js';
import { verdictOf } from './verdict.js';
import type { Workbench } from './workbench.js';

type Severities = readonly [a: number, b: number];

/** What is known of a pair at chosen severities. */
interface Known {
  /** Where it stood last, and how far it was walked there. */
  stood: { readonly at: Severities; readonly walked: Remembered } | undefined;
  /** Where it fell, by the two severities: the beginning of a session that rules it out there. */
  readonly fell: Map<string, Omit<Remembered, 'progress'>>;
}

/** Pairs kept; beyond these the memory starts anew. */
const MOST_KEPT = 30_000;
const memory = new WeakMap<Workbench, Map<string, Known>>();

/** At which severities a pair fits everything, or how many steps of the session it got through at the best of those tried. */
export type Fit = { readonly verdict: Verdict } | { readonly verdict?: undefined; readonly reached: number };

/** @param first severities of the first fault that are worth trying, where they are known */
export function fitAtOnce(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  first?: readonly number[],
): Fit {
  const known = knownOf(bench, faults, first);
  // Only while the session goes on from there: otherwise the answer would depend on what was asked before.
  const { stood } = known;
  const last = stood !== undefined && isBeginning(stood.walked, evidence) ? stood.at : undefined;
  let reached = 0;
  for (const at of severitiesToTry(faults, last, first)) {
    const name = at.join();
    const fallen = known.fell.get(name);
    if (fallen !== undefined && isBeginning(fallen, evidence)) {
      reached = Math.max(reached, fallen.steps);
      continue;
    }
    const before = known.stood?.at.join() === name ? known.stood.walked : undefined;
    const fixed = faults.map((fault, i) => held(fault, at[i]!));
    const walked = walkOn(bench, fixed, evidence, 'steady', before);
    if (walked.progress.fall === undefined) {
      known.stood = { at, walked };
      return { verdict: verdictOf(walked.progress) };
    }
    known.fell.set(name, { steps: walked.steps, prefix: walked.prefix });
    reached = Math.max(reached, walked.steps);
  }
  return { reached };
}

function knownOf(bench: Workbench, faults: readonly Fault[], first: readonly number[] = []): Known {
  let pairs = memory.get(bench);
  if (pairs === undefined || pairs.size > MOST_KEPT) memory.set(bench, (pairs = new Map()));
  const id = `${hypothesisId(faults)} ${first.join()}`;
  let known = pairs.get(id);
  if (known === undefined) pairs.set(id, (known = { stood: undefined, fell: new Map() }));
  return known;
}

function severitiesToTry(
  [a, b]: readonly Fault[],
  last: Severities | undefined,
  known = likelySeverities(a!),
): readonly Severities[] {
  const all = known.flatMap((first) => likelySeverities(b!).map((second): Severities => [first, second]));
  if (last === undefined) return all;
  return [last, ...all.filter(([first, second]) => first !== last[0] || second !== last[1])];
}

/** An open circuit or a dead short first, then a few ohms. */
function likelySeverities({ scale, apply }: Fault): readonly number[] {
  const { edges, unit } = scale;
  if (unit === 'none') return [edges[0]!];
  if (unit !== 'ohm') return [edges[edges.length >> 1]!, edges[0]!];
  return apply(1).kind === 'series' ? [edges.at(-1)!, 3] : [0.01, 3];
}

/** The fault at one severity only. */
function held(fault: Fault, severity: number): Fault {
  return { ...fault, scale: FIXED, apply: () => fault.apply(severity) };
}
