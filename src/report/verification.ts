/** Was the repair proved? The diagnosis's answer, in words. */
import type { Circuit } from '../circuit/circuit.js';
import { proveRepair, type FailedCondition, type RepairProof } from '../diagnosis/proof-of-repair.js';
import type { Step } from '../session/case.js';
import type { Action } from '../session/events.js';
import type { Verification } from './report-data.js';
import { describeLoad, describeSetUp } from '../session/describe.js';
import { listWords } from './layout.js';

export interface Proof extends Verification {
  readonly recoveredBefore: RepairProof['recoveredBefore'];
  readonly corrections: RepairProof['corrections'];
  /** Corrections after which it still failed. A short is mended only together with the fuse it blew: what a new fuse followed is none. */
  readonly inVain: RepairProof['inVain'];
}

/** @param abnormal numbers of the findings that a healthy vehicle would not show */
export function verify(circuit: Circuit, timeline: readonly Step[], abnormal: ReadonlySet<number>): Proof {
  const { state, conditions, corrections, recoveredBefore, ...proof } = proveRepair(timeline, abnormal);
  const those = (wanted: (again: FailedCondition['again']) => boolean): readonly string[] =>
    conditions.filter(({ again }) => wanted(again)).map((one) => conditionOf(circuit, one));
  const repeated = those((again) => again === 'good');
  const missing = those((again) => again !== 'good');
  const stillBad = those((again) => again === 'bad');
  const words = (): string => {
    if (corrections.length === 0) return 'Not verified: no repair was recorded.';
    if (conditions.length === 0) return 'Not verified: no failed condition was recorded to repeat.';
    if (stillBad.length > 0) return `Not repaired: it still fails (${listWords(stillBad)}).`;
    if (state === 'verified')
      return `Verified: every failed condition was repeated after the repair and was good (${listWords(repeated)}).`;
    if (state === 'partly verified')
      return `Only partly verified: good in ${listWords(repeated)}; not repeated: ${listWords(missing)}.`;
    return corrections.every((action) => action.do === 'reseat')
      ? 'Not verified: contacts were only reseated, and a reseated contact proves no repair.'
      : `Not verified: the failed condition was not repeated after the repair (${listWords(missing)}).`;
  };
  const lastFuse = corrections.findLastIndex((action) => renewsFuse(circuit, action));
  const inVain = new Set([...proof.inVain].filter((action) => corrections.indexOf(action) > lastFuse));
  return { state, words: words(), repeated, missing, recoveredBefore, corrections, inVain };
}

function renewsFuse({ parts }: Circuit, action: Action): boolean {
  return (action.do === 'fit new' || action.do === 'reset') && parts.get(action.part)?.type === 'fuse';
}

/** "H1, pedal pressed": the load and the conditions, without what it did. */
function conditionOf(circuit: Circuit, { load, finding }: FailedCondition): string {
  const setUp = describeSetUp(circuit, finding.setUp);
  return `${describeLoad(circuit, load)}, ${setUp.length === 0 ? 'everything at rest' : setUp.join(', ')}`;
}
