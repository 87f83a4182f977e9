/** The battery's volts as read in a session, for forecasts. */
import type { Workbench } from '../diagnosis/workbench.js';
import type { Case, Finding } from '../session/case.js';
import { findingsOf } from './condition.js';

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
