/**
 * What an eye or ear can tell: the part of its rated voltage a load may have when somebody calls it lit, dim, off and so on.
 * The bands overlap on purpose. Light goes with V^3.4 (lamp rerating, standard EE handbook), so half the volts leave a tenth of
 * the light, which the sun hides; people differ. The edges are common practice, no source.
 */
import type { Load } from '../network/network.js';
import type { Sight } from '../session/events.js';

export interface Band {
  readonly low: number;
  readonly high: number;
}

const ANY: Band = { low: 0, high: Infinity };

const LAMP: Partial<Record<Sight, Band>> = {
  lit: { low: 0.55, high: Infinity },
  dim: { low: 0.12, high: 0.95 },
  off: { low: 0, high: 0.5 },
};
const HORN: Partial<Record<Sight, Band>> = {
  sounds: { low: 0.4, high: Infinity },
  weak: { low: 0.15, high: 0.9 },
  silent: { low: 0, high: 0.6 },
};
const MOTOR: Partial<Record<Sight, Band>> = {
  runs: { low: 0.3, high: Infinity },
  slow: { low: 0.1, high: 0.9 },
  stopped: { low: 0, high: 0.5 },
};
/** Pull-in of plug-in relays: at most 2/3 of rated volts, in practice not below a quarter (data sheets). */
const RELAY: Partial<Record<Sight, Band>> = {
  clicks: { low: 0.25, high: Infinity },
  silent: { low: 0, high: 0.7 },
  chatters: { low: 0.08, high: 1 },
};

/** Words that fit this kind of load, good first, dead last. */
export const WORDS: Record<Load['kind'], readonly Sight[]> = {
  lamp: ['lit', 'dim', 'off'],
  horn: ['sounds', 'weak', 'silent'],
  motor: ['runs', 'slow', 'stopped'],
  relay: ['clicks', 'silent'],
};

/** Voltage over rated voltage that fits what was seen; everything for words that prove nothing (`flickers`). */
export function sightBand(kind: Load['kind'], sight: Sight): Band {
  const table = kind === 'lamp' ? LAMP : kind === 'horn' ? HORN : kind === 'motor' ? MOTOR : RELAY;
  return table[sight] ?? ANY;
}

/** An LED test lamp glows from about 3 V on a 12 V system (from memory). */
export function ledBand(value: 'lit' | 'dim' | 'off'): Band {
  if (value === 'lit') return { low: 0.25, high: Infinity };
  return value === 'dim' ? { low: 0.1, high: 0.8 } : { low: 0, high: 0.45 };
}
