/** Claims held against the readings: a part is cleared only when no fault of it explains them any more. */
import type { Diagnosis, Suspect } from '../diagnosis/diagnosis-types.js';
import { gather } from '../diagnosis/evidence.js';
import type { Evidence } from '../diagnosis/evidence-types.js';
import type { Fault } from '../diagnosis/faults.js';
import { isOpen } from '../diagnosis/severity.js';
import { judge, type Course } from '../diagnosis/verdict.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Event, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { undoneNumbers } from '../session/observed-order.js';
import type { Insight } from './insight.js';
import { provedConditions } from './proved.js';
import type { Run } from './run.js';

export interface Unsupported {
  readonly number: number;
  readonly kind: 'claim' | 'cause';
  readonly why: string;
}

/** Share that the cause named must have by the readings. */
const SURE = 0.9;

export function unsupportedClaims({
  bench,
  recorded,
  complained,
  insight,
}: Pick<Run, 'bench' | 'recorded' | 'complained' | 'insight'>): readonly Unsupported[] {
  const undone = undoneNumbers(recorded);
  const found: Unsupported[] = [];
  recorded.forEach(({ number, event }, index) => {
    if (undone.has(number)) return;
    const before = () => recorded.slice(0, index).filter((one) => !undone.has(one.number));
    if (event.type === 'claimed') {
      const why = notCleared(bench, event, before(), insight);
      if (why !== undefined) found.push({ number, kind: 'claim', why });
    }
    if (event.type === 'concluded') {
      if (provedConditions(bench.circuit, before(), complained) === complained.length) return;
      const why = notProved(event.at, insight.diagnosis(before()));
      if (why !== undefined) found.push({ number, kind: 'cause', why });
    }
  });
  return found;
}

/** Faults of the part, wire or place, of the kind named where one is. */
export function claimedFaults(
  bench: Workbench,
  { at, of }: Extract<Event, { type: 'claimed' }>,
): readonly Fault[] {
  const plain = at.replace(/[hci]$/, '');
  const own = bench.faults.filter(({ part, site }) => [part, site].includes(at) || site === plain);
  const words = of.toLowerCase();
  if (words === '') return own;
  const kind = /open|broken|break/.test(words)
    ? ['open', 'resistance', 'dead']
    : /short|ground|chafed/.test(words)
      ? ['short', 'touching']
      : /resist|corro|loose|joint|contact/.test(words)
        ? ['resistance']
        : undefined;
  return kind === undefined
    ? own.filter((fault) => fault.kind === words)
    : own.filter((fault) => kind.includes(fault.kind));
}

function notCleared(
  bench: Workbench,
  event: Extract<Event, { type: 'claimed' }>,
  before: readonly Recorded[],
  insight: Insight,
): string | undefined {
  const meant = claimedFaults(bench, event);
  const ids = new Set(meant.map(({ id }) => id));
  const left = insight
    .diagnosis(before)
    .suspects.filter(({ faults }) => faults.some(({ id }) => ids.has(id)));
  if (left.length === 0) return undefined;
  // A joint that may still be poor may yet be cleared of being open.
  const openOnly = /open|broken|break/i.test(event.of);
  const evidence = gather(bench, foldCase(bench.circuit, before));
  const still = left.find((suspect) => !openOnly || mayBeOpen(bench, suspect, ids, evidence));
  if (still === undefined) return undefined;
  return `${still.faults.map(({ label }) => label).join(' and ')} still explains every reading`;
}

const COURSES: readonly Course[] = ['steady', 'comes and goes'];

/** Does one of the faults meant fit as a clean break? Of what is left over beside a repaired one the severity is not asked. */
function mayBeOpen(
  bench: Workbench,
  { faults, besides }: Suspect,
  ids: ReadonlySet<string>,
  evidence: Evidence,
): boolean {
  if (besides !== undefined) return true;
  const own = faults.map(({ id }) => bench.faults.find((fault) => fault.id === id)!);
  return COURSES.some((course) => {
    const { fall, severity } = judge(bench, own, evidence, course);
    return (
      fall === undefined &&
      own.some(
        ({ id, scale }, i) => ids.has(id) && (scale.unit !== 'ohm' || isOpen(severity[i]?.high ?? Infinity)),
      )
    );
  });
}

function notProved(at: string, { verified, groups, suspects }: Diagnosis): string | undefined {
  if (verified) return undefined;
  const plain = at.split('.')[0]!;
  const share = suspects
    .filter(({ faults }) => faults.some(({ part }) => part === plain || part === at))
    .reduce((sum, suspect) => sum + suspect.share, 0);
  if (share >= SURE) return undefined;
  const others = groups.filter(
    (group) => !group.suspects.some(({ faults }) => faults.some(({ part }) => part === plain)),
  );
  return `named without proof: ${Math.round(100 * share)} % speaks for it, and ${others.length} other repairs were open`;
}
