/** What goes wrong with motors, horns, heaters, solenoids, coils and loads of which little is known. */
import type { Part } from '../../circuit/circuit.js';
import type { Element, Law } from '../../network/network.js';
import { FIXED, logScale, SERIES } from '../severity.js';
import { nameOf, obeys, open, replacement, series, type ModeList } from './mode-list.js';
import { ODDS } from './odds.js';

type CurveLaw = Extract<Law, { kind: 'curve' }>;

/** Ohms of a standing motor lie this far around what its law says; common practice, no source. */
const STALL = { low: 0.5, high: 1.8 };
/** A motor that drags draws so many times its current. */
const DRAG = { least: 1.3, most: 4 };
/** Rated volts of a motor that no volts turn. */
const NEVER = 1000;

/** How likely the winding is broken, or its brushes or leads are. */
function broken(part: Part): number {
  switch (part.type) {
    case 'horn':
    case 'buzzer':
      return ODDS.horn;
    case 'motor':
      return ODDS.motor;
    case 'heater':
      return ODDS.heater;
    case 'solenoid':
      return ODDS.solenoid;
    case 'load':
      return ODDS.load;
    default:
      return ODDS.coil;
  }
}

/** @param element the joint inside the part before its winding */
export function windingLeadModes(list: ModeList, element: Element, part: Part): void {
  const coil = part.type === 'relay' || part.type === 'flasher' || part.type === 'heater';
  list.add(element, coil ? 'open' : 'resistance', coil ? FIXED : SERIES, broken(part), {
    apply: coil ? open(element) : series(element),
    repair: replacement(part),
  });
}

/** @param element the winding itself, a plain resistance */
export function coilModes(list: ModeList, element: Element, part: Part): void {
  const { law } = element;
  if (law.kind !== 'ohms' || (part.type !== 'solenoid' && part.type !== 'heater')) return;
  const name = nameOf(part);
  list.add(element, 'short', logScale('ohm', law.ohms / 1000, law.low, 2), ODDS.shortedTurns, {
    apply: (ohms) => obeys(element, { kind: 'ohms', ohms, low: ohms, high: ohms }),
    repair: replacement(part),
    id: 'shorted turns',
    label: `${name} shorted inside: it has too few ohms`,
  });
  if (part.type !== 'solenoid') return;
  list.add(element, 'seized', FIXED, ODDS.seized, {
    apply: () => obeys(element, unmoved(part.volts, law)),
    repair: { ...replacement(part), how: `free or replace ${name}` },
    label: `${name} sticks: it has its current and does not move`,
  });
}

/** @param element the winding itself */
export function motorModes(list: ModeList, element: Element, part: Part): void {
  const { law } = element;
  if (law.kind !== 'curve') return;
  const name = nameOf(part);
  list.add(element, 'seized', FIXED, ODDS.seized, {
    apply: () => obeys(element, seizedLaw(law)),
    repair: { ...replacement(part), how: `free or replace ${name}` },
    label: `${name} seized: it draws its stall current and does not turn`,
  });
  list.add(
    element,
    'dragging',
    logScale('A', law.amps * DRAG.least, law.amps * DRAG.most, 6),
    ODDS.dragging,
    {
      apply: (amps) => obeys(element, draggingLaw(law, amps)),
      repair: { ...replacement(part), how: `free or replace ${name}` },
      label: `${name} turns hard: it draws too much and is slow`,
    },
  );
}

/** A standing motor is the resistance of its winding. */
export function seizedLaw(law: CurveLaw): Law {
  const ohms = (law.cold * law.volts) / law.amps;
  return unmoved(law.volts, { ohms, low: ohms * STALL.low, high: ohms * STALL.high });
}

/** Plain ohms in something that does not move: how well it works is told by rated volts, which it never gets. */
function unmoved(ratedVolts: number, { ohms, low, high }: { ohms: number; low: number; high: number }): Law {
  const volts = ratedVolts * NEVER;
  const amps = volts / ohms;
  return {
    kind: 'curve',
    volts,
    amps,
    exponent: 1,
    knee: 0.5,
    cold: 1,
    coldLow: low / ohms,
    coldHigh: high / ohms,
    spread: 0,
  };
}

/**
 * A motor that draws `amps` at its rated volts because something brakes it. What the winding takes of the volts grows with the
 * current and leaves less for speed; the law's rated volts are those at which it would turn at full speed.
 */
export function draggingLaw(law: CurveLaw, amps: number): Law {
  const times = amps / law.amps;
  const speed = Math.max(0.01, (1 - law.cold * times) / (1 - law.cold));
  const stretch = 1 / speed;
  // Below these volts, as a part of the rated ones, the current it needs is more than its winding lets through: it stands.
  const stands = Math.max(law.knee, (law.cold * times) ** (1 / (1 - law.exponent)));
  const cold = times * stretch ** (law.exponent - 1);
  return {
    ...law,
    volts: law.volts * stretch,
    amps: amps * stretch ** law.exponent,
    knee: stands / stretch,
    cold: law.cold * cold,
    coldLow: law.coldLow * cold,
    coldHigh: law.coldHigh * cold,
  };
}
