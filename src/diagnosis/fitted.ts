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
    if (!('element' in fault)) return [fault];
    const { owner, part, site } = network.elements[fault.element]!;
    if (owner !== 'item') return [fault];
    const at = positionOf.get(part);
    if (at === undefined) return fitted.has(part) ? [] : [fault];
    const element = network.sites.get(at + site.slice(part.length));
    return element === undefined ? [] : [{ ...fault, element }];
  });
}
