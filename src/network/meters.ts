/**
 * Meters are part of the circuit: what each one adds between its two probe points, and how far its figure may be off.
 */
import type { Law } from './network.js';

function fixed(ohms: number, low = ohms, high = ohms): Law {
  return { kind: 'ohms', ohms, low, high };
}

/** Digital voltmeter: 10 MΩ (Lessons in Electric Circuits I ch. 8; common meter manuals). */
export const VOLTMETER = fixed(10e6, 9e6, 11e6);

/**
 * The same in its low-impedance mode, where a meter has one: about 3 kΩ on electricians' meters (practice, from memory), up to
 * 300 kΩ on others (a meter manual, trade notes §7). The make is not known, so the band holds both.
 */
export const LOW_IMPEDANCE_VOLTMETER = fixed(3000, 2000, 400_000);

/** In-line ammeter with its leads and fuse, ohms; from memory, about 0.03 to 0.1 on a 10 A socket. */
export const AMMETER_OHMS = 0.05;
export const AMMETER = fixed(AMMETER_OHMS, AMMETER_OHMS, AMMETER_OHMS);

/** A fused jumper lead with its clips (common practice, no source). */
export const JUMPER = fixed(0.03, 0.005, 0.3);

/**
 * Ohmmeter and continuity buzzer as a source of 1 V behind 1 kΩ: about 1 mA on the low ranges, as meters do (trade practice,
 * from memory). The ohms follow from the probe voltage alone.
 */
export const OHMMETER_VOLTS = 1;
export const OHMMETER_OHMS = 1000;

/** The ohmmeter's source; `volts` 0 shows what the circuit itself puts on the probes. */
export function ohmmeter(volts: number): Law {
  return { kind: 'source', volts, lowVolts: volts, highVolts: volts, ohms: OHMMETER_OHMS };
}

/** Probe volts that this many ohms would give the ohmmeter. */
export function ohmmeterVolts(ohms: number): number {
  return ohms === Infinity ? OHMMETER_VOLTS : (OHMMETER_VOLTS * ohms) / (ohms + OHMMETER_OHMS);
}

/** Ohms that the meter shows at these probe volts. */
export function ohmmeterReads(volts: number): number {
  if (volts >= OHMMETER_VOLTS) return Infinity;
  return Math.max(0, (OHMMETER_OHMS * volts) / (OHMMETER_VOLTS - volts));
}

/** Probe volts from the circuit itself above which an ohms reading is nonsense. */
export const LIVE_VOLTS = 0.005;

/** Buzzers sound below 10 to 100 Ω, by make (trade notes: meter manuals 50 Ω, practice 10 to 100 Ω). */
export const BUZZER_OHMS = { surelySounds: 10, surelySilent: 100 };

/** OL means above the range in use; the lowest common range is 200 Ω (from memory). */
export const OVERLOAD_OHMS = 200;

/** Leads that were not zeroed add up to this much (trade practice, from memory). */
export const LEAD_OHMS = 0.5;

/** Half-width of what a voltmeter figure may mean: 0.5 % and 2 counts (usual accuracy, from memory), and the last digit typed. */
export function voltsError(value: number, step: number): number {
  return step + 0.005 * Math.abs(value) + 2 * Math.min(step, 0.01);
}

/** The same for an ohmmeter: 1 % and 2 counts, and the last digit typed. Leads come on top. */
export function ohmsError(value: number, step: number): number {
  return step + 0.01 * Math.abs(value) + 2 * Math.min(step, 0.1);
}

/** The same for an in-line ammeter: 1.5 % and 3 counts, and the last digit typed. */
export function ampsError(value: number, step: number): number {
  return step + 0.015 * Math.abs(value) + 3 * Math.min(step, 0.01);
}

/** The same for a clamp: 3 %, 3 counts and what its zero drifts, 0.05 A (usual for direct current, from memory). */
export function clampError(value: number, step: number): number {
  return step + 0.03 * Math.abs(value) + 3 * Math.min(step, 0.1) + 0.05;
}

/** Filament test lamps are 3 to 5 W (trade notes §7); an LED one draws a few milliamperes and needs about 3 V. */
export function testLamp(kind: 'filament' | 'LED', volts: number): Law {
  if (kind === 'LED') return fixed(volts / 0.008, volts / 0.02, volts / 0.003);
  const amps = 4 / volts;
  return {
    kind: 'curve',
    volts,
    amps,
    exponent: 0.55,
    knee: 0.05,
    cold: 1 / 12,
    coldLow: 1 / 16,
    coldHigh: 1 / 9,
    spread: 0.35,
  };
}
