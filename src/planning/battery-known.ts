/** How well the battery's volts are known, which decides what volts against its posts can tell. */
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case, Finding } from '../session/case.js';
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

/** Batteries this close together make no other choice, volts. */
const ALIKE_VOLTS = 0.5;

/**
 * Volts of the battery by its posts as read with the engine off, the middle one of several, roughly; undefined while none was read that
 * a healthy battery may have: low ones may be the fault's doing.
 */
export function batteryRead(bench: Workbench, session: Case): number | undefined {
  const own = bench.network.elements[bench.source]!.law;
  if (own.kind !== 'source') return undefined;
  const read = findingsOf(session)
    .filter(({ setUp }) => setUp.engine === 'off')
    .flatMap((finding) => postsRead(finding) ?? [])
    .filter((volts) => volts >= own.lowVolts && volts <= own.highVolts)
    .sort((a, b) => a - b);
  const middle = read[read.length >> 1];
  return middle === undefined ? undefined : ALIKE_VOLTS * Math.round(middle / ALIKE_VOLTS);
}

function postsRead({ reading, battery }: Finding): number | undefined {
  if (battery !== undefined) return battery.value;
  const posts = reading.kind === 'volts' && reading.red === 'bat+' && reading.black === 'bat-';
  return posts ? reading.value.value : undefined;
}
