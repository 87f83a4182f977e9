/** What a person does on the vehicle to mend a fault: a new item, clean contacts, or work on the wire or part; and what a fault left open. */
import type { PartId } from '../circuit/circuit.js';
import type { Fault } from '../diagnosis/faults.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Action } from '../session/events.js';
import { isResettable } from '../session/fuse-places.js';

export function repairAction(
  { network, circuit }: Workbench,
  { owner, inHousing, contact, part, site, repair }: Fault,
): Action {
  if (owner === 'item' || inHousing) return { do: 'fit new', part };
  const whole = circuit.parts.get(part)?.type === 'module' || !network.points.has(site);
  if (contact) return { do: 'clean', at: whole ? part : site };
  return { do: 'repair', at: part, how: repair.how };
}

/** What makes an open fuse whole again: a new one, or a reset of a breaker or module that has shut down. */
export function renewal({ circuit }: Workbench, part: PartId): Action {
  return isResettable(circuit, part) ? { do: 'reset', part } : { do: 'fit new', part };
}
