/** Figures and readings with the digits that a person reads. */
import type { Reading } from '../session/events.js';

/** A reading as a person gave it. */
export function shownAs(reading: Reading): string {
  switch (reading.kind) {
    case 'volts':
      return `${figure(reading.value.value)} V`;
    case 'amps':
    case 'clamp':
      return `${figure(reading.value.value)} A`;
    case 'ohms':
      return reading.value === 'OL' ? 'OL' : `${figure(reading.value.value)} ohm`;
    case 'scan':
      return typeof reading.value === 'object' ? `${figure(reading.value.value)} V` : reading.value;
    default:
      return reading.value;
  }
}

/** A figure with the digits a person reads. */
export function figure(value: number): string {
  const size = Math.abs(value);
  if (size < 0.0005) return '0';
  if (size < 0.1) return value.toFixed(3);
  if (size < 10) return value.toFixed(2);
  if (size < 100) return value.toFixed(1);
  if (size < 10_000) return value.toFixed(0);
  return size < 1e6 ? `${(value / 1e3).toFixed(0)} k` : `${(value / 1e6).toFixed(1)} M`;
}
