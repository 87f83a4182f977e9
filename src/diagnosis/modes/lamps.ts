/** What goes wrong with lamps: broken, touching or wrong filaments, the wrong kind of lamp in the holder. */
import type { Lamp } from '../../circuit/circuit.js';
import { filamentLaw } from '../../network/compile.js';
import type { Element } from '../../network/network.js';
import type { AppliedFault } from '../../network/solver-types.js';
import { FIXED, logScale } from '../severity.js';
import { nameOf, obeys, open, replacement, type ModeList } from './mode-list.js';
import { ODDS } from './odds.js';

/** Watts of lamps that fit somebody's holder. */
const WATTS = logScale('W', 1.5, 75, 6);
/** Two filaments that have sagged onto each other; common practice, no source. */
const TOUCHING = logScale('ohm', 0.01, 1, 1);

/** @param element the filament itself */
export function filamentModes(list: ModeList, element: Element, part: Lamp): void {
  const { law } = element;
  if (law.kind !== 'curve') return;
  const { volts } = law;
  const watts = law.amps * volts;
  const name = nameOf(part);
  const fit = (fittedWatts: number, fittedVolts: number) =>
    obeys(element, filamentLaw(fittedWatts, fittedVolts));
  const repair = { ...replacement(part), how: `fit the right lamp in ${name}` };
  list.add(element, 'wrong', WATTS, ODDS.wrongLamp, {
    apply: (fitted) => fit(fitted, volts),
    repair,
    id: 'wrong watts',
    label: `lamp of the wrong watts in ${name}, not ${watts.toFixed(0)} W`,
  });
  const other = volts < 18 ? volts * 2 : volts / 2;
  list.add(element, 'wrong', FIXED, ODDS.wrongLamp, {
    apply: () => fit(watts, other),
    repair,
    id: 'wrong volts',
    label: `${other.toFixed(0)} V lamp in ${name}, not ${volts.toFixed(0)} V`,
  });
}

/** @param element the joint inside the lamp before its filament */
export function filamentLeadModes(list: ModeList, element: Element, part: Lamp): void {
  list.add(element, 'open', FIXED, ODDS.filament, { apply: open(element), repair: replacement(part) });
  const [strong, ...others] = [...part.filaments].sort((one, other) => other.watts - one.watts);
  const own = others.find(({ terminal }) => element.site === `${part.id}:${terminal} lead`);
  if (own === undefined) return;
  // The modes of two filaments together stand once, at the lead of the weaker one.
  const main = list.network.elements[list.network.sites.get(`${part.id}:${strong!.terminal}`)!]!;
  const name = nameOf(part);
  list.add(element, 'touching', TOUCHING, ODDS.filamentsTouching, {
    apply: (ohms): AppliedFault => ({
      kind: 'bridge',
      a: element.b,
      b: main.a,
      ohms,
      element: element.index,
    }),
    repair: replacement(part),
    id: `touching ${strong!.terminal}`,
    label: `the filaments ${own.terminal} and ${strong!.terminal} of ${name} touch each other`,
  });
  list.add(element, 'wrong', FIXED, ODDS.wrongLamp / 2, {
    apply: (): AppliedFault => ({ kind: 'rehung', element: element.index, a: element.a, b: main.a }),
    repair: { ...replacement(part), how: `fit the right lamp in ${name}` },
    id: 'wrong single filament',
    label: `lamp with one filament in ${name}, which needs two: its base joins ${own.terminal} and ${strong!.terminal}`,
  });
}
