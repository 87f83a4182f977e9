/**
 * A fused jumper across a switch, watching a load that failed. Not where it would start, crank, pump or turn something, on no line of
 * a module, and not beside a running engine.
 */
import type { Candidate, Scope } from '../candidate.js';
import { cautionsFor } from '../cautions.js';

const UNSAFE: ReadonlySet<string> = new Set([
  ...[
    'jumper-short',
    'jumper-motion',
    'jumper-cranks',
    'jumper-fuel',
    'never-probe',
    'airbag',
    'airbag-line',
  ],
  ...['jumper-module', 'jumper-module-output', 'battery-gas'],
]);

export function jumpers({ bench, conditions, parts }: Scope): Candidate[] {
  return conditions.flatMap(({ setUp, failed }) => {
    const watched = failed.find((load) => bench.network.loads.get(load)!.kind !== 'motor');
    if (watched === undefined || setUp.engine === 'running') return [];
    return parts.flatMap((part) => {
      if (part.type !== 'switch' || bench.circuit.controls.get(part.control)?.risk !== undefined) return [];
      return part.contacts.flatMap(({ between: [from, to] }): Candidate[] => {
        const ends = [`${part.id}.${from}`, `${part.id}.${to}`] as const;
        const event = { type: 'did', action: { do: 'jumper', between: ends } } as const;
        if (cautionsFor(bench.circuit, setUp, event).some(({ id }) => UNSAFE.has(id))) return [];
        return [
          {
            line: watched,
            words: `fused jumper from ${ends[0]} to ${ends[1]} (across ${part.label}), then watch ${watched}`,
            setUp: { ...setUp, jumpers: [ends] },
            reading: { kind: 'load', load: watched, value: 'off' },
            bare: 'watch',
            at: [],
          },
        ];
      });
    });
  });
}
