/** What goes wrong with contacts that open and close, and with fuses. */
import type { Part } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import { FIXED, logScale, SERIES } from '../severity.js';
import { nameOf, obeys, open, replacement, series, type ModeList } from './mode-list.js';
import { ODDS, WORK } from './odds.js';

export function fuseModes(list: ModeList, element: Element, part: Part): void {
  list.add(element, 'open', FIXED, ODDS.fuse, { apply: open(element), repair: replacement(part) });
  const { law } = element;
  if (law.kind !== 'fuse' || part.type !== 'fuse') return;
  list.add(element, 'wrong', logScale('A', law.amps / 5, law.amps * 0.8, 3), ODDS.wrongFuse, {
    // A fuse of fewer amperes has so many more ohms.
    apply: (amps) => {
      const times = law.amps / amps;
      return obeys(element, {
        ...law,
        amps,
        ohms: law.ohms * times,
        low: law.low * times,
        high: law.high * times,
      });
    },
    // The same as for a blown one: a new fuse is always of the rating in the drawing.
    repair: replacement(part),
    id: 'wrong rating',
    label: `fuse of too few amperes in ${nameOf(part)}, not ${law.amps} A`,
  });
}

export function contactModes(list: ModeList, element: Element, part: Part): void {
  const worn =
    part.type === 'relay' ? ODDS.relayContact : part.type === 'flasher' ? ODDS.flasher : ODDS.switchContact;
  list.add(element, 'resistance', SERIES, worn, {
    apply: series(element),
    repair: replacement(part),
    contact: true,
  });
  list.add(element, 'stuck', FIXED, ODDS.welded, {
    apply: () => ({ kind: 'stuck', element: element.index, closed: true }),
    repair: replacement(part),
  });
}

/** Metal that happens to conduct may do so badly or not at all. */
export function couplingModes(list: ModeList, element: Element, part: Part): void {
  const name = nameOf(part);
  list.add(element, 'resistance', SERIES, ODDS.coupling, {
    apply: series(element),
    repair: {
      how: `mend the return wire beside ${name}: the metal is no sound way back`,
      minutes: WORK.splice,
      price: 0,
    },
    label: `poor or no metal contact: ${name}`,
    contact: true,
  });
}
