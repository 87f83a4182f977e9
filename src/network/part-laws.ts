/**
 * The usual values of what a circuit file does not give, with the band inside which a good part may lie: predictions use the
 * band, so a value may be rough but not narrow.
 */
import type { Law } from './network.js';

/** Resistivity of annealed copper at 20 °C, ohm mm²/m (IEC 60028:1925). */
export const COPPER_OHM_MM2_PER_M = 0.017241;

/** A good contact: a few milliohms (common practice, no source). */
export const JOINT: Law = { kind: 'ohms', ohms: 0.002, low: 0.0002, high: 0.008 };
/**
 * Battery cables end in bolted lugs: below 0.1 V at the 200 A of a starter (repair manual quoting SAE), 0.5 mΩ. Their contacts
 * may lose 0.3 V (same): 1.5 mΩ. The usual values are common practice, no source.
 */
export const HEAVY_JOINT: Law = { kind: 'ohms', ohms: 0.0001, low: 0.00001, high: 0.0005 };
export const HEAVY_CONTACT_OHMS = { ohms: 0.0004, low: 0.0001, high: 0.0015 };
/** Conductors from this size on are battery cables with bolted lugs, mm² (common practice, no source). */
export const CABLE_MM2 = 25;
/** The joint inside a load between its terminal and its filament or winding; a fault site, no measurable ohms. */
export const LEAD: Law = { kind: 'ohms', ohms: 0.0005, low: 0.0004, high: 0.0006 };
/** Contact drop of relays at 10 A: typically 15 mV, at most 200 mV (relay data sheets): 1.5 to 20 mΩ; switches wear more. */
export const CONTACT_OHMS = { ohms: 0.015, low: 0.0015, high: 0.05 };
/**
 * EMF band of a serviceable lead-acid battery per volt of nominal, engine off: 11.0 to 13.2 V for 12 V. Rested it is 11.9 to
 * 12.65 V from empty to full; ageing, cold and a surface charge widen it. Below is "flat", a fault mode.
 */
export const RESTED_BAND = { low: 11.0 / 12, high: 13.2 / 12 };
/** Charging: 13.2 to 14.4 V usual, up to 14.7 V (trade tables), widened for regulators at their limits. */
export const CHARGING = { volts: 14.0 / 12, low: 12.9 / 12, high: 15.0 / 12 };

/**
 * EMF of a battery beside a running engine, alternator drawn: empty to fresh from charging, 11.0 to 14.2 V at 12 V; and how many
 * times its ohms it has against a charging current (both common practice, no source).
 */
export const BEING_CHARGED = { volts: 12.9 / 12, low: RESTED_BAND.low, high: 14.2 / 12, ohms: 3 };

/** Ohms of a copper wire: resistivity × length / cross-section. */
export function wireOhms(mm2: number, metres: number): number {
  return (COPPER_OHM_MM2_PER_M * metres) / mm2;
}

/**
 * The law of a filament. I ∝ V^0.55 near rated volts (lamp rerating, standard EE handbook); below 5 % of rated volts a band of
 * cold resistance 1/16 to 1/9 of hot. Spread ±12 %: UN R37 lets signal lamps draw up to 26.5 W at 13.5 V for 21 W, less with age.
 */
export function filamentLaw(watts: number, volts: number): Law {
  return {
    kind: 'curve',
    volts,
    amps: watts / volts,
    exponent: 0.55,
    knee: 0.05,
    cold: 1 / 12,
    coldLow: 1 / 16,
    coldHigh: 1 / 9,
    spread: 0.12,
  };
}

/** A running motor draws little less at lower volts; stalled it has about a fifth of its running resistance (common practice, no source). */
export function motorLaw(amps: number, volts: number): Law {
  return {
    kind: 'curve',
    volts,
    amps,
    exponent: 0.3,
    knee: 0.1,
    cold: 0.15,
    coldLow: 0.08,
    coldHigh: 0.2,
    spread: 0.35,
  };
}

/** Fixed ohms with the edges of their tolerance as parts of the nominal value. */
export function band(ohms: number, low: number, high: number): Law {
  return { kind: 'ohms', ohms, low: ohms * low, high: ohms * high };
}

/** The same as a bare band, for contacts. */
export function ohmsBand(
  ohms: number,
  low: number,
  high: number,
): { readonly ohms: number; readonly low: number; readonly high: number } {
  return { ohms, low: ohms * low, high: ohms * high };
}

/**
 * An LED lamp: chips in series behind a resistor. They begin at half to three quarters of the rated volts (three white or five
 * red chips of 12 V; from memory), then the current rises in a straight line to the rated one.
 */
export function ledLaw(watts: number, volts: number): Law {
  const forwardVolts = 0.62 * volts;
  return {
    kind: 'diode',
    forwardVolts,
    ohms: (volts - forwardVolts) / (watts / volts),
    spread: 0.12 * volts,
  };
}

/**
 * A load of which only the power is known: anywhere between a fixed resistance and a fixed current, so the middle rises with
 * the square root of the volts, in a band that holds both down to a third of the rated volts.
 */
export function unknownLoadLaw(amps: number, volts: number): Law {
  return {
    kind: 'curve',
    volts,
    amps,
    exponent: 0.5,
    knee: 0.1,
    cold: 0.3,
    coldLow: 0.05,
    coldHigh: 1.5,
    spread: 0.6,
  };
}

/** Volts a module or an electronic flasher needs to do anything: at 12 V surely dead below 5 V, surely alive from 8 V (from memory). */
export function supplyBand(nominalVolts: number): {
  readonly pullInVolts: number;
  readonly dropOutVolts: number;
} {
  return { pullInVolts: (8 * nominalVolts) / 12, dropOutVolts: 5 };
}

/**
 * Ball, socket and bearings between a towed frame and the body: bright metal or rust and grease (common practice, no source).
 * Nobody may count on it, and nobody may count it out.
 */
export const COUPLING_OHMS = { ohms: 0.5, low: 0.02, high: 100 };
