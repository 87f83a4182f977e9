/** What a repair is meant to mend. What is only touched on the way is not repaired by that. */
import type { Action } from '../session/events.js';
import type { Fault } from './fault.js';

/** @param item what is renewed, where swaps have moved it: the item that sat in the position before */
export function isMendedBy(
  action: Action,
  { owner, inHousing, contact, part, site }: Fault,
  item?: string,
): boolean {
  const isAt = (at: string) => part === at || site === at || site === plain(at);
  switch (action.do) {
    case 'fit new':
      return (owner === 'item' && part === (item ?? action.part)) || (inHousing && part === action.part);
    case 'repair':
      return isAt(action.at);
    case 'clean':
    case 'tighten':
      return contact && isAt(action.at);
    default:
      return false;
  }
}

/** A point without its side: harness, component or the item itself. */
function plain(at: string): string {
  return at.includes('.') ? at.replace(/[hci]$/, '') : at;
}
