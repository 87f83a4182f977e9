/** Was the repair proved? Only by repeating every failed condition after it and finding each good. */
import type { Finding, Step } from '../session/case.js';
import type { Action } from '../session/events.js';
import { isRepair } from '../session/actions.js';
import { sameSetUp } from '../session/setup.js';

export { isRepair } from '../session/actions.js';

/** Something that failed in ordinary operation: which load, in which set-up, and how it came out after the last repair. */
export interface FailedCondition {
  readonly load: string;
  /** The finding in which it failed last before the repair (or first after it). */
  readonly finding: Finding;
  /** The last repeat counts. */
  readonly again: 'good' | 'bad' | 'not repeated';
}

export interface RepairProof {
  readonly state: 'verified' | 'partly verified' | 'not verified';
  /** What was done that counts as a correction, in order; reseating is one, but proves no repair. */
  readonly corrections: readonly Action[];
  readonly conditions: readonly FailedCondition[];
  /** It already worked before the first correction (after a touch, or by itself): the repair then proves nothing. */
  readonly recoveredBefore: boolean;
  /** Corrections after which no failed condition came good and one was found bad once more, before anything else was repaired. */
  readonly inVain: ReadonlySet<Action>;
}

/** Repairs made in one go, and how the failed conditions came out after them. */
interface Attempt {
  readonly repairs: Action[];
  good: boolean;
  bad: boolean;
}

/** @param abnormal numbers of the findings that a healthy vehicle would not show */
export function proveRepair(timeline: readonly Step[], abnormal: ReadonlySet<number>): RepairProof {
  const corrected = timeline.flatMap((step, index) =>
    step.kind === 'action' && (isRepair(step.action) || step.action.do === 'reseat')
      ? [{ action: step.action, index }]
      : [],
  );
  const corrections = corrected.map(({ action }) => action);
  const first = corrected[0]?.index ?? timeline.length;
  const last = corrected.findLast(({ action }) => isRepair(action))?.index ?? timeline.length;
  const conditions: { load: string; finding: Finding; again: FailedCondition['again'] }[] = [];
  const attempts: Attempt[] = [];
  let recoveredBefore = false;
  for (const [index, step] of timeline.entries()) {
    const attempt = attempts.at(-1);
    if (step.kind === 'action') {
      if (!isRepair(step.action)) continue;
      if (attempt === undefined || attempt.good || attempt.bad)
        attempts.push({ repairs: [step.action], good: false, bad: false });
      else attempt.repairs.push(step.action);
      continue;
    }
    if (!isOperation(step.finding)) continue;
    const { finding } = step;
    const bad = abnormal.has(finding.number);
    const known = conditions.find((one) => sameCondition(one.finding, finding));
    if (index < first && known !== undefined) recoveredBefore = !bad;
    if (attempt !== undefined && known !== undefined) attempt[bad ? 'bad' : 'good'] = true;
    if (known !== undefined) {
      if (index > last) known.again = bad ? 'bad' : 'good';
      else if (bad) known.finding = finding;
    } else if (bad) {
      const load = finding.reading.kind === 'load' ? finding.reading.load : '';
      conditions.push({ load, finding, again: index > last ? 'bad' : 'not repeated' });
    }
  }
  const good = conditions.filter(({ again }) => again === 'good').length;
  const failing = conditions.some(({ again }) => again === 'bad');
  const proved = corrections.some(isRepair) && good > 0 && !failing;
  const state = !proved ? 'not verified' : good === conditions.length ? 'verified' : 'partly verified';
  const inVain = new Set(attempts.flatMap(({ repairs, good: cured, bad }) => (bad && !cured ? repairs : [])));
  return { state, corrections, conditions, recoveredBefore, inVain };
}

/** Loads in ordinary operation, seen here: nothing unplugged, taken out, exchanged or bridged. */
function isOperation({ reading, setUp, evidence }: Finding): boolean {
  const { unplugged, out, jumpers, fitted, lamps } = setUp;
  const changed = unplugged.size + out.size + jumpers.length + fitted.size + lamps.size;
  return reading.kind === 'load' && evidence !== 'told' && changed === 0;
}

function sameCondition(a: Finding, b: Finding): boolean {
  return (
    a.reading.kind === 'load' &&
    b.reading.kind === 'load' &&
    a.reading.load === b.reading.load &&
    sameSetUp(a.setUp, b.setUp)
  );
}
