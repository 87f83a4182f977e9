/** What goes wrong with wires and with the contacts at which parts and wires join. */
import type { Part, Wire } from '../../circuit/circuit.js';
import { terminalsOf } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import type { Repair } from '../fault.js';
import { SERIES, SHUNT } from '../severity.js';
import { nameOf, replacement, series, type ModeList } from './mode-list.js';
import { ODDS, WORK } from './odds.js';

/** @param share of the odds of its run (see runs.ts) */
export function wireModes(list: ModeList, element: Element, wire: Wire, share: number): void {
  const repair = {
    how: `repair wire ${wire.id} (${wire.from} to ${wire.to})`,
    minutes: WORK.splice,
    price: 2,
  };
  list.add(element, 'resistance', SERIES, ODDS.connections * share, {
    apply: series(element),
    repair,
    contact: true,
  });
  list.add(element, 'short', SHUNT, ODDS.shorts * share, {
    apply: (ohms) => ({ kind: 'shunt', node: element.b, ohms }),
    repair,
  });
}

/** @param share of the odds of its run (see runs.ts) */
export function jointModes(list: ModeList, element: Element, part: Part, share: number): void {
  list.add(element, 'resistance', SERIES, ODDS.connections * share, {
    apply: series(element),
    repair: jointRepair(part, element.site),
    contact: true,
  });
  if (part.type === 'battery' || !terminalsOf(part).includes(terminalAt(part, element.site))) return;
  const terminal = terminalAt(part, element.site);
  const held = HELD.has(part.type);
  list.add(element, 'short', SHUNT, ODDS.shorts * share, {
    apply: (ohms) => ({ kind: 'shunt', node: element.b, ohms }),
    repair: held
      ? { how: `mend the holder of ${nameOf(part)} at terminal ${terminal}`, minutes: WORK.splice, price: 2 }
      : replacement(part),
    label: held
      ? `holder of ${nameOf(part)} shorted or leaking to body at terminal ${terminal}`
      : `${nameOf(part)} shorted or leaking to its housing at terminal ${terminal}`,
    inHousing: !held,
  });
}

/** Parts that plug into a holder, which stays when they are renewed. */
const HELD: ReadonlySet<Part['type']> = new Set<Part['type']>([
  'fuse',
  'breaker',
  'relay',
  'flasher',
  'lamp',
  'LED lamp',
]);

function terminalAt(part: Part, site: string): string {
  return site.slice(part.id.length + 1);
}

function jointRepair(part: Part, site: string): Repair {
  const name = nameOf(part);
  switch (part.type) {
    case 'ground':
      return { how: `clean and tighten ground ${name}`, minutes: WORK.tighten, price: 0 };
    case 'battery':
      return { how: `clean and tighten the clamps of ${name}`, minutes: WORK.tighten, price: 0 };
    case 'splice':
      return { how: `remake the splice ${name}`, minutes: WORK.splice, price: 1 };
    case 'connector':
      return { how: `clean and seat the pins of connector ${name}`, minutes: WORK.clean, price: 0 };
    // All its terminals sit in one plug: whoever cleans one of them cleans them all.
    case 'module':
      return { how: `clean and seat the contacts of ${name}`, minutes: WORK.clean, price: 0 };
    default:
      return {
        how: `clean and tighten the contacts of ${name} at terminal ${terminalAt(part, site)}`,
        minutes: WORK.clean,
        price: 0,
      };
  }
}
