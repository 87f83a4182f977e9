/** Wiggle tests: a joint or loom is moved with the eyes on the load, for faults that come and go. */
import type { Diagnosis } from '../../diagnosis/diagnosis-types.js';
import type { Candidate, Scope } from '../candidate.js';
import { outOfReach } from '../reach.js';

/** Share of faults that surely come and go from which on wiggling is suggested. */
const ENOUGH = 0.5;

/** @param away the complaint is not there just now */
export function wiggles({ bench, conditions }: Scope, { suspects }: Diagnosis, away: boolean): Candidate[] {
  const comes = suspects
    .filter(({ course }) => course === 'comes and goes')
    .reduce((sum, { share }) => sum + share, 0);
  if (!away && comes < ENOUGH) return [];
  const [condition] = conditions;
  const [watched] = condition?.failed ?? [];
  if (condition === undefined || watched === undefined) return [];
  const places = new Set(suspects.flatMap(({ faults }) => faults.map(({ part }) => part)));
  return [...places]
    .filter((at) => outOfReach(bench.circuit, at) === undefined)
    .map((at): Candidate => {
      const label = bench.circuit.parts.get(at)?.label;
      return {
        line: watched,
        words: `wiggle ${at}${label === undefined ? '' : ` (${label})`} and watch ${watched}`,
        setUp: condition.setUp,
        wiggle: { do: 'wiggle', at },
        reading: { kind: 'load', load: watched, value: 'off' },
        bare: 'watch',
        at: [at],
      };
    });
}
