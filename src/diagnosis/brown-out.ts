/**
 * A weak battery under relays and modules that let go of their loads and take them up again: everything swings, and volts typed of the
 * posts are a mean of that. They do not hold the posts still for the reading beside them.
 */
import type { AppliedFault } from '../network/solver-types.js';
import type { Question } from './question.js';
import type { Workbench } from './workbench.js';

/** Part of nominal volts below which the posts of a healthy battery hardly fall (common practice, no source). */
const WEAK = 0.8;

/** Does the fault lie in the battery itself? */
export function isBattery(bench: Workbench, fault: AppliedFault): boolean {
  return 'element' in fault && fault.element === bench.source;
}

/** Whether posts that were read beside this reading may have swung, if these are the faults. */
export function brownsOut(
  bench: Workbench,
  { pinned, source }: Pick<Question, 'pinned' | 'source'>,
  faults: readonly AppliedFault[],
): boolean {
  const weak = source.kind === 'source' && source.volts < WEAK * bench.circuit.nominalVolts;
  return pinned && weak && bench.network.coils.length > 0 && faults.some((fault) => isBattery(bench, fault));
}
