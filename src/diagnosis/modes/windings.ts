/** What goes wrong with motors, horns and coils. */
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

/** @param element the joint inside the part before its winding */
export function windingLeadModes(list: ModeList, element: Element, part: Part): void {
  const repair = replacement(part);
  if (part.type === 'relay') {
    list.add(element, 'open', FIXED, ODDS.coil, { apply: open(element), repair });
    return;
  }
  const odds = part.type === 'horn' ? ODDS.horn : part.type === 'motor' ? ODDS.motor : ODDS.coil;
  list.add(element, 'resistance', SERIES, odds, { apply: series(element), repair });
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

/** A standing motor is the resistance of its winding; how well it runs is told by rated volts that it never gets. */
export function seizedLaw(law: CurveLaw): Law {
  const volts = law.volts * NEVER;
  const ohms = (law.cold * law.volts) / law.amps;
  return {
    kind: 'curve',
    volts,
    amps: volts / ohms,
    exponent: 1,
    knee: 0.5,
    cold: 1,
    coldLow: STALL.low,
    coldHigh: STALL.high,
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
