/** What goes wrong with what feeds the circuit. */
import type { Part } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import { linearScale, logScale } from '../severity.js';
import { nameOf, obeys, series, type ModeList } from './mode-list.js';
import { ODDS } from './odds.js';

export function batteryModes(list: ModeList, element: Element, part: Part): void {
  const { law } = element;
  if (law.kind !== 'source') return;
  const repair = { how: `charge or replace battery ${part.id}`, minutes: 15, price: part.price };
  list.add(element, 'flat', linearScale('V', 0, law.lowVolts, 12), ODDS.flat, {
    apply: (volts) => obeys(element, { ...law, volts, lowVolts: volts, highVolts: volts }),
    repair,
  });
  list.add(element, 'resistance', logScale('ohm', 0.01, 100, 3), ODDS.weakBattery, {
    apply: series(element),
    repair,
    label: `${nameOf(part)} weak: its volts fall under load (${list.circuit.nominalVolts} V system)`,
  });
}
