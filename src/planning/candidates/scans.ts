/** What a module says of its inputs: scan values in the failed condition. */
import type { Candidate, Scope } from '../candidate.js';

export function scans(_scope: Scope): Candidate[] {
  return [];
}
