/** A clamp around a wire in the failed condition: current without opening anything. */
import type { Candidate, Scope } from '../candidate.js';
import { BLANK } from '../candidate.js';
import { outOfReach } from '../reach.js';

export function clamps({ bench, conditions }: Scope): Candidate[] {
  const wires = bench.circuit.wires.filter(({ id }) => outOfReach(bench.circuit, id) === undefined);
  return conditions.flatMap(({ setUp }) =>
    wires.map(({ id, from, to }): Candidate => ({
      line: `clamp ${id}`,
      words: `clamp meter around wire ${id} (${from} to ${to})`,
      setUp,
      reading: { kind: 'clamp', at: id, value: BLANK },
      bare: 'clamp',
      at: [from],
    })),
  );
}
