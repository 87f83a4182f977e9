/** What goes wrong with lamps: broken, touching or wrong filaments, the wrong kind of lamp in the holder. */
import type { Lamp, LedLamp } from '../../circuit/circuit.js';
import { filamentLaw, ledLaw } from '../../network/part-laws.js';
import type { Element } from '../../network/network.js';
import type { AppliedFault } from '../../network/solver-types.js';
import { FIXED, logScale } from '../severity.js';
import { nameOf, obeys, open, replacement, type ModeList } from './mode-list.js';
import { ODDS } from './odds.js';

/** Watts of lamps that fit somebody's holder. */
const WATTS = logScale('W', 1.5, 75, 6);
/** LED lamps that fit a holder for a filament draw some watts, whatever the filament did; common practice, no source. */
const LED_WATTS = logScale('W', 0.5, 8, 3);
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
  list.add(element, 'wrong', LED_WATTS, ODDS.wrongLamp, {
    apply: (fitted) => obeys(element, ledLaw(fitted, volts)),
    repair,
    id: 'wrong LED',
    label: `LED lamp in ${name}, not one with a filament of ${watts.toFixed(0)} W`,
  });
}

/** @param element the LED itself */
export function ledModes(list: ModeList, element: Element, part: LedLamp): void {
  const name = nameOf(part);
  list.add(element, 'wrong', WATTS, ODDS.wrongLamp, {
    apply: (fitted) => obeys(element, filamentLaw(fitted, part.volts)),
    repair: { ...replacement(part), how: `fit the right lamp in ${name}` },
    id: 'wrong filament',
    label: `lamp with a filament in ${name}, not an LED lamp`,
  });
}

/** @param element the joint inside the lamp before its LED */
export function ledLeadModes(list: ModeList, element: Element, part: LedLamp): void {
  list.add(element, 'open', FIXED, ODDS.LED, { apply: open(element), repair: replacement(part) });
  list.add(element, 'wrong', FIXED, ODDS.reversed, {
    // What a reversed LED lets through is nothing; rehung it would seem lit, for volts across it are how a lamp is seen.
    apply: open(element),
    repair: { ...replacement(part), how: `fit ${nameOf(part)} the right way round` },
    id: 'reversed',
    label: `LED lamp in ${nameOf(part)} the wrong way round`,
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
