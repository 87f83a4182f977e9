/**
 * Two severities at which a pair of faults fits a whole session: where it fitted last, else those that are worth trying. Each is walked on
 * from finding to finding, so that a long session is not walked through anew after every one of them.
 */
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import { hypothesisId } from './fault-info.js';
import type { Remembered } from './hypotheses.js';
import { isBeginning, judgeOn, movesByItself, walkOn } from './hypotheses.js';
import type { Standing } from './rank.js';
import { FIXED, isOpen } from './severity.js';
import type { Course, Verdict } from './verdict.js';
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

/** Ohms that no meter tells from none. */
const NEXT_TO_NOTHING = 0.01;

/** Pairs kept; beyond these the memory starts anew. */
const MOST_KEPT = 30_000;
const memory = new WeakMap<Workbench, Map<string, Known>>();

/** At which severities a pair fits everything, or how many steps of the session it got through at the best of those tried. */
type Fit = { readonly verdict: Verdict } | { readonly verdict?: undefined; readonly reached: number };

/**
 * As a pair that is always there and as one that comes and goes, which explains all that the other does.
 * @param severities of either fault that are worth trying
 */
export function fitBothCourses(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  severities: readonly [a: readonly number[], b: readonly number[]],
): { readonly both: Standing } | { readonly both?: undefined; readonly reached: number } {
  const moves = evidence.steps.some(movesByItself);
  const fit = fitAtOnce(bench, faults, evidence, severities, moves ? 'comes and goes' : 'steady');
  if (fit.verdict === undefined) return fit;
  const loose: Verdict = { ...fit.verdict, faults, severity: [], course: 'comes and goes' };
  if (!moves) return { both: [{ ...loose, course: 'steady' }, loose] };
  const { verdict } = fitAtOnce(bench, faults, evidence, severities, 'steady');
  const steady = verdict && { ...verdict, faults, severity: [] };
  return { both: [steady ?? judgeOn(bench, faults, evidence, 'steady'), loose] };
}

function fitAtOnce(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  severities: readonly [a: readonly number[], b: readonly number[]],
  course: Course,
): Fit {
  const known = knownOf(bench, faults, course);
  // Only while the session goes on from there: otherwise the answer would depend on what was asked before.
  const { stood } = known;
  const last = stood !== undefined && isBeginning(stood.walked, evidence) ? stood.at : undefined;
  let reached = 0;
  for (const at of severitiesToTry(severities, last)) {
    const name = at.join();
    const fallen = known.fell.get(name);
    if (fallen !== undefined && isBeginning(fallen, evidence)) {
      reached = Math.max(reached, fallen.steps);
      continue;
    }
    const before = known.stood?.at.join() === name ? known.stood.walked : undefined;
    const fixed = faults.map((fault, i) => held(fault, at[i]!));
    const walked = walkOn(bench, fixed, evidence, course, before);
    if (walked.progress.fall === undefined) {
      known.stood = { at, walked };
      return { verdict: verdictOf(walked.progress) };
    }
    known.fell.set(name, { steps: walked.steps, prefix: walked.prefix });
    reached = Math.max(reached, walked.steps);
  }
  return { reached };
}

function knownOf(bench: Workbench, faults: readonly Fault[], course: Course): Known {
  let pairs = memory.get(bench);
  if (pairs === undefined || pairs.size > MOST_KEPT) memory.set(bench, (pairs = new Map()));
  const id = `${hypothesisId(faults)} ${course}`;
  let known = pairs.get(id);
  if (known === undefined) pairs.set(id, (known = { stood: undefined, fell: new Map() }));
  return known;
}

function severitiesToTry(
  [a, b]: readonly [readonly number[], readonly number[]],
  last: Severities | undefined,
): readonly Severities[] {
  const all = a.flatMap((first) => b.map((second): Severities => [first, second]));
  if (last === undefined) return all;
  return [last, ...all.filter(([first, second]) => first !== last[0] || second !== last[1])];
}

const fixed = new WeakMap<Fault, Map<number, Fault>>();

/** The fault at one severity only, but for what a contact drifts between two readings; always the same object. */
function held(fault: Fault, severity: number): Fault {
  let known = fixed.get(fault);
  if (known === undefined) fixed.set(fault, (known = new Map()));
  let at = known.get(severity);
  if (at === undefined)
    known.set(
      severity,
      (at = drifts(fault, severity)
        ? { ...fault, scale: { ...fault.scale, edges: [severity, severity] } }
        : {
            ...fault,
            scale: FIXED,
            apply: () => fault.apply(severity),
            burnsBelow: burnsAt(fault, severity),
          }),
    );
  return at;
}

/** A scale without severities burns at each of them or at none. */
function burnsAt({ burnsBelow }: Fault, severity: number): number | undefined {
  return burnsBelow !== undefined && severity <= burnsBelow ? Infinity : undefined;
}

/** Of an open circuit or a dead short nobody sees it. */
function drifts({ contact, scale: { unit } }: Fault, severity: number): boolean {
  return contact && unit === 'ohm' && severity > NEXT_TO_NOTHING && !isOpen(severity);
}
