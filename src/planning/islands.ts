/** Which nodes hang together: a stretch that nothing joins to the rest shows no volts, whatever a formula says of its leaks. */
import { coilConds } from '../network/cond.js';
import type { Network } from '../network/network.js';
import { BODY } from '../network/network.js';
import type { AddedElement, Outcome, Variant } from '../network/solver-types.js';

/** Ohms from which on a 10 MΩ voltmeter sees an open rather than a joint. */
const AS_GOOD_AS_OPEN = 3e6;

/** Number of the connected piece of every node, with the jumpers and lamps of the set-up but without the meter. */
export function islands(
  network: Network,
  variant: Variant,
  outcome: Outcome,
  added: readonly AddedElement[],
): Int32Array {
  const piece = Int32Array.from({ length: network.nodeNames.length }, (_, node) => node);
  const root = (node: number): number => {
    let at = node;
    while (piece[at] !== at) at = piece[at] = piece[piece[at]!]!;
    return at;
  };
  const join = (a: number, b: number) => {
    piece[root(a)] = root(b);
  };
  const open = new Set<number>();
  const coils = new Map(network.coils.map((coil, bit) => [coil, bit]));
  network.fuses.forEach((index, bit) => {
    if ((outcome.blown >>> bit) & 1) open.add(index);
  });
  const stuck = new Map<number, boolean>();
  for (const fault of variant.faults) {
    if (fault.kind === 'series' && fault.ohms > AS_GOOD_AS_OPEN) open.add(fault.element);
    else if (fault.kind === 'shunt' && fault.ohms < AS_GOOD_AS_OPEN) join(fault.node, BODY);
    else if (fault.kind === 'bridge' && fault.ohms < AS_GOOD_AS_OPEN) join(fault.a, fault.b);
    else if (fault.kind === 'rehung') join(fault.a, fault.b);
    else if (fault.kind === 'crossed') {
      const [one, other] = [network.elements[fault.first]!, network.elements[fault.second]!];
      join(one.a, other.b);
      join(other.a, one.b);
    } else if (fault.kind === 'stuck') stuck.set(fault.element, fault.closed);
  }
  for (const { index, a, b, law } of network.elements) {
    if (open.has(index)) continue;
    let closed = variant.present[index] === 1;
    if (law.kind === 'contact') {
      for (const { coil, rest } of coilConds(law.closed))
        closed &&= ((outcome.pulledIn >>> coils.get(coil)!) & 1) === (rest === 'open' ? 1 : 0);
    }
    if (stuck.get(index) ?? closed) join(a, b);
  }
  for (const { a, b } of added) join(a, b);
  for (let node = 0; node < piece.length; node++) piece[node] = root(node);
  return piece;
}
