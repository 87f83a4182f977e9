/** Faults of an item go where the item goes, and a blown fuse stays blown there: swapped parts, and items known to be good. */
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

/**
 * Which fuses are open after items were exchanged, as masks over the positions: a known-good fuse is whole, a swapped one is as it
 * was, and one that lay aside meanwhile may be either, because no mask tells how it left.
 */
export function movedFuses(
  network: Network,
  before: SetUp['fitted'],
  after: SetUp['fitted'],
  blown: number,
): readonly number[] {
  let masks = [0];
  network.fuses.forEach((element, bit) => {
    const states = statesAt(network, element, before, after, blown);
    masks = masks.flatMap((mask) => states.map((open) => mask | (open << bit)));
  });
  return masks;
}

const AT_HOME: SetUp['fitted'] = new Map();

/** Fuse items that are open, by their own positions, as they stand in a set-up: the likeliest of the masks. */
export function placedFuses(network: Network, fitted: SetUp['fitted'], blown: number): number {
  return blown === 0 || fitted.size === 0 ? blown : movedFuses(network, AT_HOME, fitted, blown)[0]!;
}

/** 0 whole, 1 open. */
function statesAt(
  network: Network,
  element: number,
  before: SetUp['fitted'],
  after: SetUp['fitted'],
  blown: number,
): readonly number[] {
  const { part, site } = network.elements[element]!;
  const now = after.get(part) ?? part;
  const at = (bit: number) => [(blown >>> bit) & 1];
  if (now === (before.get(part) ?? part)) return at(network.fuses.indexOf(element));
  if (now === KNOWN_GOOD) return [0];
  const cameFrom =
    [part, ...before.keys()].find((position) => (before.get(position) ?? position) === now) ?? now;
  if ((before.get(cameFrom) ?? cameFrom) !== now) return [0, 1];
  const there = network.sites.get(cameFrom + site.slice(part.length));
  const bit = there === undefined ? -1 : network.fuses.indexOf(there);
  return bit < 0 ? [0, 1] : at(bit);
}
