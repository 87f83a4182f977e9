/** What goes wrong with resistors, senders and diodes. */
import type { Part, Sender, Thermistor } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import type { AppliedFault } from '../../network/solver-types.js';
import { siteLabel } from '../labels.js';
import { FIXED, logScale, SERIES } from '../severity.js';
import { beside, nameOf, obeys, replacement, series, type ModeList } from './mode-list.js';
import { ODDS } from './odds.js';

/** Ohms backwards through a diode that leaks; below it counts as shorted. */
const LEAK = logScale('ohm', 1, 1e5, 2);

export function resistorModes(list: ModeList, element: Element, part: Part): void {
  const { law } = element;
  if (law.kind !== 'ohms') return;
  const repair = replacement(part);
  list.add(element, 'resistance', SERIES, ODDS.resistor, { apply: series(element), repair });
  list.add(element, 'drifted', logScale('ohm', law.ohms / 1000, law.low, 3), ODDS.drifted, {
    apply: (ohms) => obeys(element, { kind: 'ohms', ohms, low: ohms, high: ohms }),
    repair,
    label: `${siteLabel(list.circuit, element)} has too few ohms, down to shorted`,
  });
}

/** @param element the joint inside the part before its resistance, whichever that is at present */
export function senderModes(list: ModeList, element: Element, part: Sender | Thermistor): void {
  const most = Math.max(...part.positions.map(({ ohms }) => ohms));
  const other = list.network.points.get(`${part.id}.2i`)!;
  list.add(element, 'resistance', SERIES, ODDS.sender, {
    apply: series(element),
    repair: replacement(part),
    label: `${nameOf(part)} has too many ohms, up to open`,
  });
  list.add(element, 'drifted', logScale('ohm', most / 1000, most * 10, 2), ODDS.drifted, {
    apply: (ohms) => ({ kind: 'bridge', a: element.b, b: other, ohms, element: element.index }),
    repair: replacement(part),
    label: `${nameOf(part)} has too few ohms, down to shorted`,
  });
}

/** @param element the junction itself */
export function diodeModes(list: ModeList, element: Element, part: Part): void {
  const name = nameOf(part);
  list.add(element, 'short', FIXED, ODDS.diode, {
    apply: () => obeys(element, { kind: 'ohms', ohms: 0.05, low: 0.001, high: 0.3 }),
    repair: replacement(part),
    id: 'shorted',
    label: `${name} shorted: it conducts both ways`,
  });
  list.add(element, 'leaking', LEAK, ODDS.leakingDiode, {
    apply: beside(element),
    repair: replacement(part),
  });
  list.add(element, 'wrong', FIXED, ODDS.reversed, {
    apply: (): AppliedFault => ({ kind: 'rehung', element: element.index, a: element.b, b: element.a }),
    repair: { ...replacement(part), how: `fit ${name} the right way round` },
    id: 'reversed',
    label: `${name} fitted the wrong way round`,
  });
}

/** @param element the joint inside the part before the junction */
export function diodeLeadModes(list: ModeList, element: Element, part: Part): void {
  list.add(element, 'resistance', SERIES, ODDS.diode, { apply: series(element), repair: replacement(part) });
}
