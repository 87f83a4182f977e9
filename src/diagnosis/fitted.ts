/** Faults of an item go where the item goes: swapped parts, and items known to be good. */
import type { Network } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';
import { KNOWN_GOOD, type SetUp } from '../session/setup.js';

/**
 * The faults as they act in a set-up. A fault inside an item acts at the position in which the item now sits; one whose item
 * has been exchanged for a known-good one acts nowhere. Joints and wires stay where they are.
 */
export function placedFaults(
  network: Network,
  fitted: SetUp['fitted'],
  faults: readonly AppliedFault[],
): readonly AppliedFault[] {
  if (fitted.size === 0) return faults;
  const positionOf = new Map<string, string>();
  for (const [position, item] of fitted) if (item !== KNOWN_GOOD) positionOf.set(item, position);
  return faults.flatMap((fault) => {
    if (!('element' in fault) || fault.element === undefined) return [fault];
    const { owner, part, site } = network.elements[fault.element]!;
    if (owner !== 'item') return [fault];
    const at = positionOf.get(part);
    if (at === undefined) return fitted.has(part) ? [] : [fault];
    const element = network.sites.get(at + site.slice(part.length));
    if (element === undefined) return [];
    if (fault.kind !== 'bridge' && fault.kind !== 'rehung') return [{ ...fault, element }];
    // Nodes inside an item are named after its position.
    const there = (node: number) => {
      const name = network.nodeNames[node]!;
      return name.startsWith(part) ? network.nodeNames.indexOf(at + name.slice(part.length)) : node;
    };
    return [{ ...fault, element, a: there(fault.a), b: there(fault.b) }];
  });
}
