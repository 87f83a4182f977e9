/** How well the battery's volts are known, which decides what volts against its posts can tell. */
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case } from '../session/case.js';
import { findingsOf } from './condition.js';
import type { Surroundings } from './outcome-classes.js';

/** Shares of nominal volts by which it may be off: typed beside each reading, read once in this session, never read. */
const BESIDE = 0.005;
const ONCE = 0.035;
const NEVER = 0.09;

export function surroundingsOf(bench: Workbench, session: Case): Surroundings {
  const volts = findingsOf(session).filter(({ reading }) => reading.kind === 'volts');
  const last = volts.at(-1);
  const known = volts.some(
    ({ reading, battery }) => battery !== undefined || ('red' in reading && reading.red === 'bat+'),
  );
  const share = last?.battery !== undefined ? BESIDE : known ? ONCE : NEVER;
  return { battery: share * bench.circuit.nominalVolts };
}
