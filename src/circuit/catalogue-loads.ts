/**
 * Motors, heaters, horns, buzzers and solenoids of common kinds. Nothing is printed on most of them, so these are demo data: within
 * what is usual in a van or tractor (common practice, no source). What a file says itself goes first. At 24 V half the current.
 */
import type { CatalogueEntry, CatalogueKeys } from './catalogue-entry.js';
import type { PartType } from './parts.js';

function demo(
  type: PartType,
  id: string,
  words: string,
  amps: number,
  more: CatalogueKeys = {},
): CatalogueEntry {
  const { stall, ...rest } = more;
  const keys = (volts: number): CatalogueKeys => ({
    ...rest,
    volts: `${volts} V`,
    amps: `${amps / (volts / 12)} A`,
    ...(stall === undefined ? {} : { stall: `${parseFloat(stall) / (volts / 12)} A` }),
  });
  const made = new Map([
    [12, keys(12)],
    [24, keys(24)],
  ]);
  return { id, type, words, source: 'common practice, no source', demo: true, made };
}

const motor = (id: string, drives: string, words: string, amps: number, stall?: number) =>
  demo('motor', id, words, amps, { drives, ...(stall === undefined ? {} : { stall: `${stall} A` }) });

export const LOADS: readonly CatalogueEntry[] = [
  motor('washer pump', 'pump', 'screen washer, also with two outlets', 3.5, 12),
  motor('wiper motor', 'wiper', 'front wipers, first speed on a wet screen', 4, 20),
  motor('rear wiper motor', 'wiper', 'one arm', 2.5, 10),
  motor('radiator fan', 'fan', 'one fan of 150 W', 13, 60),
  motor('large radiator fan', 'fan', 'one fan of 300 W', 25, 110),
  motor('blower', 'fan', 'heater blower, full speed', 18, 80),
  motor('small blower', 'fan', 'heater blower of a small van or cab, full speed', 4, 18),
  motor('window motor', 'window', 'window lift', 5, 22),
  motor('lock motor', 'lock', 'door lock, for a moment', 3, 8),
  motor('mirror motor', 'mirror', 'mirror glass', 0.2, 0.6),
  motor('seat motor', 'seat', 'seat rail or back', 6, 28),
  motor('fuel pump', 'pump', 'in the tank, 3 to 4 bar', 6, 18),
  motor('lift pump', 'pump', 'diesel, low pressure', 3, 10),
  motor('starter 1 kW', 'starter', 'small petrol engine', 120, 450),
  motor('starter 2 kW', 'starter', 'diesel engine of a van', 200, 800),
  motor('starter 4 kW', 'starter', 'truck or tractor', 500, 2000),
  demo('heater', 'rear window heater', 'whole window, new and clean', 15),
  demo('heater', 'mirror heater', 'one mirror glass', 1.5),
  demo('heater', 'seat heater', 'seat and back, first stage', 4),
  demo('heater', 'glow plug', 'one plug after some seconds', 10),
  demo('heater', 'fuel filter heater', 'diesel filter', 12),
  demo('horn', 'disc horn', 'one tone', 5),
  demo('horn', 'trumpet horn', 'one tone, louder', 6),
  demo('buzzer', 'warning buzzer', 'lights left on, seat belt', 0.1),
  demo('buzzer', 'reversing buzzer', 'outside, loud', 0.5),
  demo('solenoid', 'fuel shut-off', 'holds the stop lever of a diesel pump', 1),
  demo('solenoid', 'valve', 'air or hydraulics', 1.5),
  demo('solenoid', 'lid lock', 'lets a lid go, for a moment', 4),
];
