/** Replayed sessions for a person: one line each, what differs below it. */
import type { Replay, Totals } from './replay-data.js';

/** Lines below the first, without indent; a message of several lines stays together. */
export function replayDetails({ lines, reasons, notes, accepted }: Replay): readonly string[] {
  return [
    ...lines,
    ...reasons.map((reason) => `  ${reason}`),
    ...accepted.map((one) => `accepted: ${one}`),
    ...notes.map((note) => `note: ${note}`),
  ];
}

/** "holds         swap.yaml  The swap that stays". */
export function replayHead({ file, title, outcome }: Replay): string {
  return `${outcome.padEnd(13)} ${file}${title === file ? '' : `  ${title}`}`;
}

export function totalsWords({ holds, differs, failed }: Totals): string {
  return `${holds} hold, ${differs} differ, ${failed} could not run`;
}
