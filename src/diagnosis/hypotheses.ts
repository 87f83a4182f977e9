/**
 * Hypotheses judged on a session, with a memory: a session that has grown by one finding is walked on from where each hypothesis
 * stood, and one that has fallen stays fallen as long as the session begins with what felled it.
 */
import type { Evidence, EvidenceStep } from './evidence-types.js';
import type { Fault } from './faults.js';
import { canBlow } from './faults.js';
import type { Course, Progress, Verdict } from './verdict.js';
import { begin, verdictOf, walk } from './verdict.js';
import type { Workbench } from './workbench.js';

/** How far a hypothesis was walked, and the name of that beginning of the session. */
export interface Remembered {
  readonly steps: number;
  readonly prefix: string;
  readonly progress: Progress;
}

/** Hypotheses kept; a circuit has a few hundred single ones and some ten thousand pairs. */
const MOST_KEPT = 60_000;
const memory = new WeakMap<Workbench, Map<string, Remembered>>();

export function judgeOn(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  course: Course,
): Verdict {
  let kept = memory.get(bench);
  if (kept === undefined || kept.size > MOST_KEPT) memory.set(bench, (kept = new Map()));
  const key = `${faults.map((fault) => fault.id).join('+')} ${course}`;
  const now = walkOn(bench, faults, evidence, course, kept.get(key));
  kept.set(key, now);
  return verdictOf(now.progress);
}

/** Walks a hypothesis through a session, from where it stood `before` if the session begins as it did then. */
export function walkOn(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
  course: Course,
  before: Remembered | undefined,
): Remembered {
  const goesOn = before !== undefined && isBeginning(before, evidence);
  if (goesOn && before.progress.fall !== undefined) return before;
  let steps = goesOn ? before.steps : 0;
  let progress = goesOn ? before.progress : begin(faults, evidence, course);
  for (const step of evidence.steps.slice(steps)) {
    progress = walk(bench, progress, [step]);
    steps += 1;
    if (progress.fall !== undefined) break;
  }
  return { steps, prefix: evidence.prefixes[steps]!, progress };
}

/** Does the session begin with what was walked through then? */
export function isBeginning({ steps, prefix }: Omit<Remembered, 'progress'>, evidence: Evidence): boolean {
  return evidence.prefixes[steps] === prefix;
}

/** Is it settled already that the hypothesis falls in a session that begins like this one? */
export function hasFallen(bench: Workbench, faults: readonly Fault[], evidence: Evidence): boolean {
  const before = memory.get(bench)?.get(`${faults.map((fault) => fault.id).join('+')} steady`);
  return before?.progress.fall !== undefined && isBeginning(before, evidence);
}

/** May what comes and goes have done so? */
export function movesByItself({ kind }: EvidenceStep): boolean {
  return kind === 'symptom' || kind === 'turned';
}

/**
 * A hypothesis as a steady fault and as one that comes and goes. As long as nothing was seen to come or go the two cannot differ, and
 * one walk serves both; but what blew a fuse may have gone since.
 */
export function bothCourses(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
): readonly [steady: Verdict, comesAndGoes: Verdict] {
  const steady = judgeOn(bench, faults, evidence, 'steady');
  const same = steady.fall === undefined || !faults.some(canBlow);
  if (same && !evidence.steps.some(movesByItself)) return [steady, { ...steady, course: 'comes and goes' }];
  return [steady, judgeOn(bench, faults, evidence, 'comes and goes')];
}
