/** Was the repair proved? Only by repeating every failed condition and finding it good. */
import type { Circuit } from '../circuit/circuit.js';
import type { Finding, Step } from '../session/case.js';
import type { Action } from '../session/events.js';
import type { Verification } from './report-data.js';
import { describeLoad, describeReading, describeSetUp } from '../session/describe.js';
import { listWords } from './layout.js';

export interface Proof extends Verification {
  /** It already worked before the repair (after a touch, or by itself): the repair then proves nothing. */
  readonly recoveredBefore: boolean;
  /** What was done that counts as a repair. */
  readonly corrections: readonly Action[];
}

/** Actions that mend something; unplugging, refitting, reseating and wiggling only touch it. */
export function isRepair(action: Action): boolean {
  return ['repair', 'fit new', 'clean', 'tighten'].includes(action.do);
}

/**
 * @param abnormal numbers of the findings that a healthy circuit would not show
 */
export function verify(circuit: Circuit, timeline: readonly Step[], abnormal: ReadonlySet<number>): Proof {
  const repairs = timeline.flatMap((step, index) =>
    step.kind === 'action' && (isRepair(step.action) || step.action.do === 'reseat') ? [index] : [],
  );
  const corrections = repairs.map((index) => (timeline[index] as Step & { kind: 'action' }).action);
  const first = repairs[0] ?? timeline.length;
  const last = repairs[repairs.length - 1] ?? timeline.length;
  const watched = timeline.flatMap((step, index) =>
    step.kind === 'finding' && isOperation(step.finding) ? [{ finding: step.finding, index }] : [],
  );

  /** Failed condition to whether its latest repeat after the last repair was good; undefined = not repeated. */
  const failed = new Map<string, boolean | undefined>();
  let recoveredBefore = false;
  for (const { finding, index } of watched) {
    const key = conditionOf(circuit, finding);
    const bad = abnormal.has(finding.number);
    if (index < last && bad) failed.set(key, undefined);
    if (index < first && failed.has(key)) recoveredBefore = !bad;
    if (index > last && (failed.has(key) || bad)) failed.set(key, !bad);
  }
  const repeated = [...failed].flatMap(([key, good]) => (good === true ? [key] : []));
  const missing = [...failed].flatMap(([key, good]) => (good === true ? [] : [key]));
  const stillBad = [...failed].flatMap(([key, good]) => (good === false ? [key] : []));

  const shared = { repeated, missing, recoveredBefore, corrections };
  if (corrections.length === 0)
    return { ...shared, state: 'not verified', words: 'Not verified: no repair was recorded.' };
  if (failed.size === 0)
    return {
      ...shared,
      state: 'not verified',
      words: 'Not verified: no failed condition was recorded to repeat.',
    };
  if (stillBad.length > 0)
    return {
      ...shared,
      state: 'not verified',
      words: `Not repaired: it still fails (${listWords(stillBad)}).`,
    };
  if (missing.length === 0) {
    const words = `Verified: every failed condition was repeated after the repair and was good (${listWords(repeated)}).`;
    return { ...shared, state: 'verified', words };
  }
  return repeated.length > 0
    ? {
        ...shared,
        state: 'partly verified',
        words: `Only partly verified: good in ${listWords(repeated)}; not repeated: ${listWords(missing)}.`,
      }
    : {
        ...shared,
        state: 'not verified',
        words: `Not verified: the failed condition was not repeated after the repair (${listWords(missing)}).`,
      };
}

/** Loads in ordinary operation: nothing unplugged, taken out or bridged. */
function isOperation(finding: Finding): boolean {
  const { unplugged, out, jumpers } = finding.setUp;
  return finding.reading.kind === 'load' && unplugged.size + out.size + jumpers.length === 0;
}

/** "H1, pedal pressed": the load and the conditions, without what it did. */
function conditionOf(circuit: Circuit, finding: Finding): string {
  const reading = finding.reading;
  const load =
    reading.kind === 'load' ? describeLoad(circuit, reading.load) : describeReading(circuit, reading);
  const setUp = describeSetUp(circuit, finding.setUp);
  return `${load}, ${setUp.length === 0 ? 'everything at rest' : setUp.join(', ')}`;
}
