/** Shorts before every fuse: a dead one would have burnt its wire before anybody came to look for it. */
import type { Circuit } from '../../circuit/circuit.js';
import type { Network } from '../../network/network.js';
import { BATTERY_NEGATIVE, BODY } from '../../network/network.js';
import type { Fault } from '../fault.js';

/**
 * Amperes that do not last a session where no fuse ends them. A copper wire of 2.5 mm2 (1.78 mm across) melts at 80 d^1.5 = 190 A
 * (W. H. Preece, Proc. Royal Society 1884, the constant from memory); 250 A also empty a battery of 44 Ah in ten minutes.
 */
const BURNING_AMPS = 250;

/** These faults, with the ohms below which they would burn. */
export function withBurning(circuit: Circuit, network: Network, faults: readonly Fault[]): Fault[] {
  const ohms = circuit.nominalVolts / BURNING_AMPS;
  const unfused = unfusedNodes(network);
  return faults.map((fault) => {
    if (fault.scale.unit !== 'ohm') return fault;
    const applied = fault.apply(ohms);
    return applied.kind === 'shunt' && unfused.has(applied.node) ? { ...fault, burnsBelow: ohms } : fault;
  });
}

/** What wires, joints and contacts, however they stand, join to battery + without a fuse or a load between. */
function unfusedNodes({ elements, points }: Network): ReadonlySet<number> {
  const plus = points.get('bat+')!;
  const reached = new Set([plus]);
  const todo = [plus];
  while (todo.length > 0) {
    const from = todo.pop()!;
    for (const { a, b, owner, law } of elements) {
      if ((a !== from && b !== from) || (owner === 'item' && law.kind !== 'contact')) continue;
      const to = a === from ? b : a;
      if (to === BODY || to === BATTERY_NEGATIVE || reached.has(to)) continue;
      reached.add(to);
      todo.push(to);
    }
  }
  return reached;
}
