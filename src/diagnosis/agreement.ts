/** Which values of the quantity agree with a reading: the meter's error and the digits typed, or what an eye can tell. */
import {
  ampsError,
  BUZZER_OHMS,
  clampError,
  LEAD_OHMS,
  ohmmeterVolts,
  ohmsError,
  OVERLOAD_OHMS,
  voltsError,
} from '../network/meters.js';
import type { Reading } from '../session/events.js';
import { scanBand } from './scan.js';
import { type Band, ledBand, sightBand } from './sights.js';
import type { Workbench } from './workbench.js';

/** Values that agree with a reading, as `Quantity` counts them. */
export function agrees(bench: Workbench, reading: Reading): Band {
  switch (reading.kind) {
    case 'volts': {
      const error = voltsError(reading.value.value, reading.value.step);
      return { low: reading.value.value - error, high: reading.value.value + error };
    }
    case 'ohms': {
      if (reading.value === 'OL') return { low: ohmmeterVolts(OVERLOAD_OHMS), high: Infinity };
      const { value, step } = reading.value;
      const error = ohmsError(value, step);
      const low = value - error - LEAD_OHMS;
      return { low: low <= 0 ? -Infinity : ohmmeterVolts(low), high: ohmmeterVolts(value + error) };
    }
    case 'continuity':
      return reading.value === 'beep'
        ? { low: -Infinity, high: ohmmeterVolts(BUZZER_OHMS.surelySilent) }
        : { low: ohmmeterVolts(BUZZER_OHMS.surelySounds - LEAD_OHMS), high: Infinity };
    case 'amps': {
      const error = ampsError(reading.value.value, reading.value.step);
      return { low: Math.abs(reading.value.value) - error, high: Math.abs(reading.value.value) + error };
    }
    case 'clamp': {
      const error = clampError(reading.value.value, reading.value.step);
      return { low: Math.abs(reading.value.value) - error, high: Math.abs(reading.value.value) + error };
    }
    case 'fuse lamp':
      return sightBand('lamp', reading.value);
    case 'test lamp':
      return reading.lamp === 'LED' ? ledBand(reading.value) : sightBand('lamp', reading.value);
    case 'load':
      return sightBand(bench.network.loads.get(reading.load)!.kind, reading.value);
    case 'scan':
      return scanBand(bench, reading);
    case 'look':
      return { low: -Infinity, high: Infinity };
  }
}
