/**
 * Hypotheses judged on a session, with a memory: a session that has grown by one finding is walked on from where each hypothesis
 * stood, and one that has fallen stays fallen as long as the session begins with what felled it.
 */
import type { Evidence } from './evidence-types.js';
import type { Fault } from './faults.js';
import type { Course, Progress, Verdict } from './verdict.js';
import { begin, verdictOf, walk } from './verdict.js';
import type { Workbench } from './workbench.js';

interface Remembered {
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
  const before = kept.get(key);
  const goesOn = before !== undefined && evidence.prefixes[before.steps] === before.prefix;
  if (goesOn && before.progress.fall !== undefined) return verdictOf(before.progress);
  const from = goesOn ? before.steps : 0;
  const start = goesOn ? before.progress : begin(faults, evidence, course);
  let progress = start;
  let steps = from;
  for (const step of evidence.steps.slice(from)) {
    progress = walk(bench, progress, [step]);
    steps += 1;
    if (progress.fall !== undefined) break;
  }
  kept.set(key, { steps, prefix: evidence.prefixes[steps]!, progress });
  return verdictOf(progress);
}

/** Is it settled already that the hypothesis falls in a session that begins like this one? */
export function hasFallen(bench: Workbench, faults: readonly Fault[], evidence: Evidence): boolean {
  const before = memory.get(bench)?.get(`${faults.map((fault) => fault.id).join('+')} steady`);
  return before?.progress.fall !== undefined && evidence.prefixes[before.steps] === before.prefix;
}

/**
 * A hypothesis as a steady fault and as one that comes and goes. As long as the complaint neither went away nor came back the two
 * cannot differ, and one walk serves both.
 */
export function bothCourses(
  bench: Workbench,
  faults: readonly Fault[],
  evidence: Evidence,
): readonly [steady: Verdict, comesAndGoes: Verdict] {
  const steady = judgeOn(bench, faults, evidence, 'steady');
  const changes = evidence.steps.some(({ kind }) => kind === 'symptom');
  if (!changes) return [steady, { ...steady, course: 'comes and goes' }];
  return [steady, judgeOn(bench, faults, evidence, 'comes and goes')];
}
