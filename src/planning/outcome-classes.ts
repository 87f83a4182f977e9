/**
 * Readings sorted into classes that a verdict could tell apart. Part tolerances, the battery's unknown volts and the meter make
 * a band of every forecast; a version counts in every class its band touches, so that what nobody can tell apart gains nothing.
 */
import { sightBand, WORDS } from '../diagnosis/sights.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Reading } from '../session/events.js';
import { NO_ANSWER } from './reads.js';

/** From where to where a band reaches on the axis of classes (class i is i to i + 1); the version's weight lies evenly on it. */
export type Span = readonly [from: number, to: number];

/** From the least to the most of several. */
export function hullOf(spans: readonly Span[]): Span {
  return [Math.min(...spans.map(([from]) => from)), Math.max(...spans.map(([, to]) => to))];
}

export interface Surroundings {
  /** Volts by which the battery may be off, one way. */
  readonly battery: number;
}

export type Classifier = (figure: number) => Span;

/** Part values move a drop by so much of itself: lamps ±12 %, wires and joints more. */
const DROP_SHARE = 0.2;
const METER_VOLTS = 0.035;
const VOLT_CLASSES = 64;
/** Classes per e-fold of volts, beyond the meter's error. */
const VOLT_STEPS = 8;

/** Ohms: filaments cold vary by a third; leads add up to half an ohm. */
const OHM_SHARE = 0.3;
const LEADS = 0.6;
const OHM_STEPS = 4;
const OL = 80;
const OL_OHMS = 1e7;

const SCAN_VOLTS = 0.1;

const CLAMP_SHARE = 0.2;
const CLAMP_AMPS = 0.15;
const CLAMP_STEPS = 6;

/** How many classes there are at most. */
export const MOST_CLASSES = 2 * VOLT_CLASSES + 1;

/** Sorts figures of this reading (see `figureOf`). */
export function classifierFor(bench: Workbench, reading: Reading, { battery }: Surroundings): Classifier {
  const { nominalVolts } = bench.circuit;
  switch (reading.kind) {
    case 'volts':
      return (volts) => {
        const size = Math.abs(volts);
        const lost = Math.max(0, Math.min(size, Math.abs(nominalVolts - size)));
        const error = METER_VOLTS + 0.005 * size + DROP_SHARE * lost + (battery * size) / nominalVolts;
        return [voltAxis(volts - error), voltAxis(volts + error)];
      };
    case 'ohms':
      return (ohms) => {
        if (ohms >= OL_OHMS) return [OL, OL + 1];
        return [ohmAxis(ohms * (1 - OHM_SHARE) - 0.1), ohmAxis(ohms * (1 + OHM_SHARE) + LEADS)];
      };
    case 'clamp':
      return (amps) => {
        const error = CLAMP_AMPS + CLAMP_SHARE * amps;
        return [clampAxis(amps - error), clampAxis(amps + error)];
      };
    case 'scan':
      return scanned(bench, `${reading.module}.${reading.input}`);
    case 'load':
      return sights(
        WORDS[bench.network.loads.get(reading.load)!.kind].map((word) =>
          sightBand(bench.network.loads.get(reading.load)!.kind, word),
        ),
      );
    default:
      return sights((['lit', 'dim', 'off'] as const).map((word) => sightBand('lamp', word)));
  }
}

/** Low, high, or either between the thresholds. No answer may have reasons outside the drawing and rules nothing out. */
function scanned(bench: Workbench, input: string): Classifier {
  const scan = bench.network.scans?.get(input);
  return (volts) => {
    if (scan === undefined || volts === NO_ANSWER) return [0, MOST_CLASSES];
    if (scan.reads === 'volts') {
      const error = SCAN_VOLTS + DROP_SHARE * Math.abs(volts);
      return [voltAxis(volts - error), voltAxis(volts + error)];
    }
    if (volts >= scan.highVolts) return [1, 2];
    return volts <= scan.lowVolts ? [0, 1] : [0, 2];
  };
}

function voltAxis(volts: number): number {
  const at = VOLT_STEPS * Math.asinh(volts / (2 * METER_VOLTS));
  return VOLT_CLASSES + Math.max(-VOLT_CLASSES, Math.min(VOLT_CLASSES, at));
}

function ohmAxis(ohms: number): number {
  return Math.min(OL, OHM_STEPS * Math.asinh(Math.max(0, ohms) / 0.3));
}

function clampAxis(amps: number): number {
  return Math.min(MOST_CLASSES - 1, CLAMP_STEPS * Math.asinh(Math.max(0, amps) / 0.3));
}

/** Part values move what a load gets by so much of itself. */
export const SIGHT_SHARE = 0.08;

/** Words from good to dead; every word whose band the figure can reach may be said. */
function sights(bands: readonly { readonly low: number; readonly high: number }[]): Classifier {
  return (share) => {
    let first = -1;
    let end = bands.length;
    bands.forEach(({ low, high }, word) => {
      if (share * (1 + SIGHT_SHARE) < low || share * (1 - SIGHT_SHARE) > high) return;
      if (first < 0) first = word;
      end = word + 1;
    });
    return first < 0 ? [0, bands.length] : [first, end];
  };
}
