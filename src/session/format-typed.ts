/** A typed reading back in words, with no digit more or less than was read off the meter. */
import type { Typed } from './events.js';

const UNIT = { volts: 'V', amps: 'A', ohms: 'ohm' } as const;

/** `11.4 V`, `0.450 V`, `1.2 kohm`: value in volts, amperes or ohms. ASCII only. */
export function formatTyped({ value, step }: Typed, quantity: keyof typeof UNIT): string {
  const scale = quantity !== 'ohms' ? 1 : Math.abs(value) >= 1e6 ? 1e6 : Math.abs(value) >= 1000 ? 1000 : 1;
  const prefix = scale === 1e6 ? 'M' : scale === 1000 ? 'k' : '';
  const decimals = Math.max(0, -Math.round(Math.log10(step / scale)));
  return `${(value / scale).toFixed(Math.min(decimals, 12))} ${prefix}${UNIT[quantity]}`;
}
