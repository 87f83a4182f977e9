/** What a module says of its inputs: scan values in the failed condition. */
import type { Candidate, Scope } from '../candidate.js';
import { BLANK } from '../candidate.js';

export function scans({ bench, conditions, parts }: Scope): Candidate[] {
  const scans = [...(bench.network.scans?.values() ?? [])];
  return conditions.flatMap(({ setUp }) =>
    scans
      .filter(({ part }) => parts.some(({ id }) => id === part))
      .map(({ id, part, input, reads }): Candidate => ({
        line: `scan ${id}`,
        words: `scan tool: what ${bench.circuit.parts.get(part)!.label} reports of input ${input}`,
        setUp,
        reading: { kind: 'scan', module: part, input, value: reads === 'volts' ? BLANK : reads.high },
        bare: 'scan',
        at: [],
      })),
  );
}
