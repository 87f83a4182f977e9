/** Second faults, judged on what was found since another one was repaired. */
import type { Evidence, EvidenceStep } from './evidence-types.js';
import type { Fault } from './faults.js';
import { canBlow } from './faults.js';
import type { Remembered } from './hypotheses.js';
import { isBeginning, movesByItself, walkOn } from './hypotheses.js';
import { fusesAfter } from './restrict.js';
import type { Course, Progress } from './verdict.js';
import { begin } from './verdict.js';
import type { Workbench } from './workbench.js';

/** Fuses of which every choice is walked with. */
const MOST_FUSES = 5;
/** Walks kept, by fault, repair and beginning of the session. */
const MOST_WALKED = 60_000;
const memory = new WeakMap<Workbench, Map<string, Remembered>>();
const fuses = new WeakMap<Workbench, Map<string, number>>();

/**
 * Does the second fault explain alone what was found since the repair? It is then the only one there, and this is judged at once, on
 * cells of its own size, with any of the fuses open that either may have blown. Where a jumper may have blown others, or fuses went
 * from place to place by hand, that is left open.
 */
export function explainsSince(
  bench: Workbench,
  repaired: Fault,
  fault: Fault,
  evidence: Evidence,
  step: number,
): boolean {
  const { steps, prefixes } = evidence;
  if (steps.some(isJumped) || (canBlow(repaired) && steps.some((one) => movesFuses(bench, one)))) return true;
  const since = { ...evidence, steps: steps.slice(step + 1), prefixes: prefixes.slice(step + 1) };
  const until = { ...evidence, steps: steps.slice(0, step), prefixes: prefixes.slice(0, step + 1) };
  const blown = blownBy(bench, repaired, until) | blownBy(bench, fault, until);
  if (blown.toString(2).replaceAll('0', '').length > MOST_FUSES) return true;
  const courses: readonly Course[] = since.steps.some(movesByItself)
    ? ['steady', 'comes and goes']
    : ['steady'];
  return courses.some((course) => {
    let walked = memory.get(bench);
    if (walked === undefined || walked.size > MOST_WALKED) memory.set(bench, (walked = new Map()));
    const key = `${fault.id} after ${repaired.id} ${since.prefixes[0]} ${course}`;
    const anew = (): Remembered => ({
      steps: 0,
      prefix: since.prefixes[0]!,
      progress: anywhere(begin([fault], since, course), blown),
    });
    const known = walked.get(key);
    // Another session may have gone on otherwise from the same repair.
    const from = known !== undefined && isBeginning(known, since) ? known : anew();
    const now = walkOn(bench, [fault], since, course, from);
    walked.set(key, now);
    return now.progress.fall === undefined;
  });
}

/** At any severity, or away for the moment, for what was touched before may have come good; any of its fuses blown, or renewed since. */
function anywhere(progress: Progress, fuses: number): Progress {
  const all = new Uint8Array(progress.grid.size).fill(1);
  const alive = new Map<number, Uint8Array>();
  for (let blown = fuses; ; blown = (blown - 1) & fuses) {
    alive.set(blown, all);
    if (blown === 0) break;
  }
  return { ...progress, alive, fitted: all, held: all };
}

/** Fuses that a fault may blow before the session, or in any of its set-ups up to the repair. */
function blownBy(bench: Workbench, fault: Fault, until: Evidence): number {
  if (!canBlow(fault)) return 0;
  let known = fuses.get(bench);
  if (known === undefined || known.size > MOST_WALKED) fuses.set(bench, (known = new Map()));
  const key = `${fault.id} ${until.prefixes.at(-1)}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const { grid, alive } = begin([fault], until, 'steady');
  let may = alive;
  for (const step of until.steps)
    if (step.kind === 'change' && step.standing !== undefined)
      may = fusesAfter(bench, may, grid, step.standing);
  const blown = [...may.keys()].reduce((either, mask) => either | mask, 0);
  known.set(key, blown);
  return blown;
}

/** Does a blown fuse sit elsewhere after it, or another item in its place? */
function movesFuses({ network }: Workbench, step: EvidenceStep): boolean {
  if (step.kind !== 'change' || step.movedFuses === undefined) return false;
  const { movedFuses } = step;
  return network.fuses.some((_, bit) => movedFuses(1 << bit).some((mask) => mask !== 1 << bit));
}

function isJumped(step: EvidenceStep): boolean {
  const { setUp } =
    (step.kind === 'observation' ? step.observation : step.kind === 'change' ? step.standing : undefined) ??
    {};
  return (setUp?.jumpers.length ?? 0) > 0;
}
