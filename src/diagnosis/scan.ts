/**
 * Scan values: what a module reports of its inputs. The tool asks the module itself, so any answer also says that the module
 * is supplied and awake; that there is none may lie in the data line or the tool as well, which the drawing does not show.
 */
import type { Scan } from '../network/network.js';
import { supplyBand } from '../network/part-laws.js';
import type { Reading } from '../session/events.js';
import type { Band } from './sights.js';
import type { Workbench } from './workbench.js';

export type ScanReading = Extract<Reading, { kind: 'scan' }>;

/** Converters of inputs are worse than a meter: 3 % and a tenth of a volt (from memory). */
const INPUT_ERROR = { part: 0.03, volts: 0.1 };
/** Many converters end at their reference of 5 V, or a little below; what is above reads the same (common practice, no source). */
const INPUT_END = 4.5;

/** What the network knows of the input; undefined where the file does not say how it reads. */
export function scanOf(bench: Workbench, { module, input }: ScanReading): Scan | undefined {
  return bench.network.scans?.get(`${module}.${input}`);
}

/** Volts of the input against the module's ground that agree with what it reports. */
export function scanBand(bench: Workbench, reading: ScanReading): Band {
  const scan = scanOf(bench, reading);
  const { value } = reading;
  if (scan === undefined || value === 'no answer') return { low: -Infinity, high: Infinity };
  if (typeof value === 'object') {
    const error = value.step + INPUT_ERROR.volts + INPUT_ERROR.part * Math.abs(value.value);
    return {
      low: value.value <= INPUT_ERROR.volts ? -Infinity : value.value - error,
      high: value.value >= INPUT_END ? Infinity : value.value + error,
    };
  }
  // Between the two thresholds the module may call it either.
  const high = typeof scan.reads === 'object' && value === scan.reads.high;
  return high ? { low: scan.lowVolts, high: Infinity } : { low: -Infinity, high: scan.highVolts };
}

/** Volts of the module's supply that agree with its answering, or not answering. */
export function answerBand(bench: Workbench, reading: ScanReading): Band {
  const { pullInVolts, dropOutVolts } = supplyBand(bench.circuit.nominalVolts);
  return reading.value === 'no answer'
    ? { low: -Infinity, high: pullInVolts }
    : { low: dropOutVolts, high: Infinity };
}
