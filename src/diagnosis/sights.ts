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

const ANY: Band = { low: -Infinity, high: Infinity };

type Bands = Partial<Record<Sight, Band>>;

/** Whatever flashes has light in its bright moments. */
const LAMP: Bands = {
  lit: { low: 0.55, high: Infinity },
  dim: { low: 0.12, high: 0.95 },
  off: { low: 0, high: 0.5 },
  flashes: { low: 0.12, high: Infinity },
  'flashes fast': { low: 0.12, high: Infinity },
};
/** Chips stay dark up to half their rated volts, then light up quickly; the wrong way round (below zero) they stay dark. */
const LED: Bands = {
  lit: { low: 0.5, high: Infinity },
  dim: { low: 0.3, high: 1 },
  off: { low: -Infinity, high: 0.8 },
  flashes: { low: 0.3, high: Infinity },
  'flashes fast': { low: 0.3, high: Infinity },
};
const HORN: Bands = {
  sounds: { low: 0.4, high: Infinity },
  weak: { low: 0.15, high: 0.9 },
  silent: { low: 0, high: 0.6 },
};
const MOTOR: Bands = {
  runs: { low: 0.3, high: Infinity },
  slow: { low: 0.1, high: 0.9 },
  stopped: { low: 0, high: 0.5 },
};
/** Pull-in of plug-in relays: at most 2/3 of rated volts, in practice not below a quarter (data sheets). */
const RELAY: Bands = {
  clicks: { low: 0.25, high: Infinity },
  silent: { low: 0, high: 0.7 },
  chatters: { low: 0.08, high: 1 },
};
/** Solenoids move something heavier than a contact, and are heard less well. */
const SOLENOID: Bands = {
  clicks: { low: 0.25, high: Infinity },
  silent: { low: 0, high: 0.85 },
  chatters: { low: 0.08, high: 1 },
};
/** Heat goes with the square of the volts and is felt late. */
const HEATER: Bands = {
  hot: { low: 0.6, high: Infinity },
  lukewarm: { low: 0.2, high: 0.95 },
  cold: { low: 0, high: 0.6 },
};
/** Of an unknown load nobody knows at how few volts it still works. */
const LOAD: Bands = {
  works: { low: 0.3, high: Infinity },
  dead: { low: 0, high: 0.85 },
};
const BANDS: Record<Load['kind'], Bands> = {
  lamp: LAMP,
  LED,
  horn: HORN,
  motor: MOTOR,
  relay: RELAY,
  solenoid: SOLENOID,
  heater: HEATER,
  load: LOAD,
};

/** Words that fit this kind of load, good first, dead last. */
export const WORDS: Record<Load['kind'], readonly Sight[]> = {
  lamp: ['lit', 'dim', 'off'],
  LED: ['lit', 'dim', 'off'],
  horn: ['sounds', 'weak', 'silent'],
  motor: ['runs', 'slow', 'stopped'],
  relay: ['clicks', 'silent'],
  solenoid: ['clicks', 'silent'],
  heater: ['hot', 'lukewarm', 'cold'],
  load: ['works', 'dead'],
};

/**
 * Voltage over rated voltage that fits what was seen; everything for words that prove nothing (`flickers`). Signed for an LED,
 * which needs it the right way round; for all others the magnitude.
 */
export function sightBand(kind: Load['kind'], sight: Sight): Band {
  return BANDS[kind][sight] ?? ANY;
}

/** An LED test lamp glows from about 3 V on a 12 V system (from memory). */
export function ledBand(value: 'lit' | 'dim' | 'off'): Band {
  if (value === 'lit') return { low: 0.25, high: Infinity };
  return value === 'dim' ? { low: 0.1, high: 0.8 } : { low: 0, high: 0.45 };
}
