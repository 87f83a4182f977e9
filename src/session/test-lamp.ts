/** Readings with a test lamp between the probes. */
import type { Reading } from './events.js';

/** Does a filament test lamp draw its current through what is read? An LED one draws next to nothing. */
export function drawsLampCurrent(reading: Reading): boolean {
  if (reading.kind === 'volts') return reading.mode === 'loaded';
  return reading.kind === 'test lamp' && reading.lamp === 'filament';
}
