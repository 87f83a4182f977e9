/** What a person does on the vehicle to mend a fault: a new item, clean contacts, or work on the wire or part. */
import type { Fault } from '../diagnosis/faults.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Action } from '../session/events.js';

export function repairAction(
  { network }: Workbench,
  { owner, inHousing, contact, part, site, repair }: Fault,
): Action {
  if (owner === 'item' || inHousing) return { do: 'fit new', part };
  if (contact) return { do: 'clean', at: network.points.has(site) ? site : part };
  return { do: 'repair', at: part, how: repair.how };
}
