/** What goes wrong with what feeds the circuit. */
import type { Alternator, Part } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import { FIXED, linearScale, logScale, SERIES } from '../severity.js';
import { nameOf, obeys, open, replacement, series, type ModeList } from './mode-list.js';
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

/** Backward ohms of the diodes of an alternator: from a shorted pair to a slow drain. */
const LEAK = logScale('ohm', 0.1, 1e4, 2);
/** A regulator that has failed lets 12 V systems reach this, per volt of nominal; from memory. */
const MOST_VOLTS = 18 / 12;

export function alternatorModes(list: ModeList, element: Element, part: Alternator): void {
  const { law } = element;
  const name = nameOf(part);
  const repair = replacement(part);
  const gives = (volts: number) =>
    law.kind === 'source'
      ? obeys(element, { ...law, volts, lowVolts: volts, highVolts: volts })
      : obeys(element, law);
  switch (element.site.slice(part.id.length + 1)) {
    case 'stator':
      if (law.kind !== 'source') return;
      list.add(element, 'undercharging', linearScale('V', 0, law.lowVolts, 12), ODDS.undercharging, {
        apply: gives,
        repair,
        label: `${name} gives too few volts`,
      });
      list.add(
        element,
        'overcharging',
        linearScale('V', law.highVolts, list.circuit.nominalVolts * MOST_VOLTS, 4),
        ODDS.overcharging,
        {
          apply: gives,
          repair,
          label: `${name} gives too many volts: its regulator does not hold them`,
        },
      );
      return;
    case 'belt':
      list.add(element, 'dead', FIXED, ODDS.notCharging, {
        apply: open(element),
        repair: { ...repair, how: `check the belt of ${name}; ${repair.how}` },
        label: `${name} gives nothing: belt, rotor or stator`,
      });
      return;
    case 'field':
      list.add(element, 'resistance', SERIES, ODDS.notCharging, {
        apply: series(element),
        repair,
        label: `worn brushes, or an open field winding, in ${name}`,
      });
      return;
    case 'rectifier':
      list.add(element, 'resistance', SERIES, ODDS.rectifier, {
        apply: series(element),
        repair,
        label: `burnt or open rectifier to B+ in ${name}`,
      });
      return;
    case 'diodes':
      list.add(element, 'resistance', SERIES, ODDS.rectifier, {
        apply: series(element),
        repair,
        label: `burnt or open diodes to D+ in ${name}`,
      });
      return;
    case 'leak':
      list.add(element, 'leaking', LEAK, ODDS.rectifier, {
        apply: (ohms) => obeys(element, { kind: 'ohms', ohms, low: ohms, high: ohms }),
        repair,
        label: `rectifier of ${name} lets current back`,
      });
  }
}
