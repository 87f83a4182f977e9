/** How parts and contacts of a simulated vehicle look. A fault may show or not: decided once for each vehicle. */
import type { Network } from '../network/network.js';
import type { Look } from '../session/events.js';
import type { Hidden } from './simulated-car.js';

/** Part of the faults that an eye can see (common practice, no source). */
const SEEN = { contact: 0.6, wire: 0.3, item: 0.6 };
/** Part of the blown fuses whose break hides behind the blade. */
const FUSE_SHOWS = 0.9;

/**
 * @param at part, wire or point that is looked at
 * @param openFuses mask of the network's fuses
 * @param chance for a fault's id, the same each time, 0 to 1
 */
export function lookAt(
  network: Network,
  at: string,
  hidden: readonly Hidden[],
  openFuses: number,
  chance: (id: string) => number,
): Look {
  const plain = at.replace(/[hci]$/, '');
  const blown = network.fuses.some(
    (element, bit) => ((openFuses >>> bit) & 1) === 1 && network.elements[element]!.part === at,
  );
  if (blown && chance(`${at} blown`) < FUSE_SHOWS) return 'blown';
  for (const { fault } of hidden) {
    if (fault.part !== at && fault.site !== at && fault.site !== plain) continue;
    const seen = fault.contact ? SEEN.contact : fault.owner === 'wire' ? SEEN.wire : SEEN.item;
    if (chance(fault.id) < seen) return lookOf(fault);
  }
  return 'good';
}

function lookOf({ kind, contact, owner }: Hidden['fault']): Look {
  switch (kind) {
    case 'resistance':
      return contact ? 'corroded' : 'broken';
    case 'open':
      return 'broken';
    case 'wrong':
      return 'wrong part';
    case 'short':
    case 'touching':
      return owner === 'wire' ? 'broken' : 'burnt';
    case 'stuck':
    case 'dragging':
    case 'seized':
      return 'burnt';
    default:
      return 'good';
  }
}
