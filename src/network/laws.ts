/**
 * How much current an element lets through at a given voltage. One place for the laws of network.ts, so that the solver,
 * the meters and the test netlists cannot drift apart.
 *
 * Sign: volts = V(a) − V(b); the current runs inside the element from a to b. Every law rises with volts.
 */
import type { Law } from './network.js';

/** Edge of tolerance: +1 the more conductive one (for a source the higher volts), −1 the other, 0 nominal. */
export type Edge = number;

/** Below this an element counts as this: a dead short keeps finite numbers. */
const LEAST_OHMS = 1e-6;
/** What a diode lets through backwards, siemens. */
const DIODE_LEAK = 1e-9;

type OhmsLaw = Extract<Law, { kind: 'ohms' | 'contact' | 'fuse' }>;
type DiodeLaw = Extract<Law, { kind: 'diode' }>;
type CurveLaw = Extract<Law, { kind: 'curve' }>;

/** Ohms of a resistive law at an edge of its tolerance. */
export function lawOhms(law: OhmsLaw, edge: Edge): number {
  const ohms = edge === 0 ? law.ohms : edge > 0 ? law.low : law.high;
  return ohms > LEAST_OHMS ? ohms : LEAST_OHMS;
}

/** EMF of a source at an edge of its tolerance, volts from a (−) to b (+). */
export function lawEmf(law: Extract<Law, { kind: 'source' }>, edge: Edge): number {
  return edge === 0 ? law.volts : edge > 0 ? law.highVolts : law.lowVolts;
}

/**
 * Amperes through a diode with ohms in series. Both are straight lines, so no search is needed; the larger of the two, so that
 * the current has no step where they meet.
 */
export function diodeCurrent(law: DiodeLaw, volts: number, edge: Edge, series: number): number {
  const forward = (volts - law.forwardVolts + edge * law.spread) / (Math.max(law.ohms, LEAST_OHMS) + series);
  return Math.max(forward, (volts * DIODE_LEAK) / (1 + DIODE_LEAK * series));
}

/** dI/dV of `diodeCurrent` where it carries these amperes. */
export function diodeSlope(law: DiodeLaw, volts: number, amps: number, series: number): number {
  const leak = DIODE_LEAK / (1 + DIODE_LEAK * series);
  return amps > volts * leak ? 1 / (Math.max(law.ohms, LEAST_OHMS) + series) : leak;
}

/** Ohms at zero volts and what they gain per volt below the knee. */
function coldOhms(law: CurveLaw, edge: Edge): number {
  const cold = edge === 0 ? law.cold : edge > 0 ? law.coldLow : law.coldHigh;
  return (cold * law.volts) / (law.amps * (1 + edge * law.spread));
}

// A power costs as much as the rest of a solve's step together, and few laws differ in these two numbers.
let lastKnee = NaN;
let lastExponent = NaN;
let lastPower = NaN;

function kneeOhms(law: CurveLaw, edge: Edge): number {
  if (law.knee !== lastKnee || law.exponent !== lastExponent) {
    lastKnee = law.knee;
    lastExponent = law.exponent;
    lastPower = law.knee ** (1 - law.exponent);
  }
  return (law.volts * lastPower) / (law.amps * (1 + edge * law.spread));
}

/** Amperes through an element at these volts. A contact or fuse counts as closed: whether it is, is for the caller to say. */
export function lawCurrent(law: Law, volts: number, edge: Edge = 0): number {
  switch (law.kind) {
    case 'ohms':
    case 'contact':
    case 'fuse':
      return volts / lawOhms(law, edge);
    case 'source':
      return (volts + lawEmf(law, edge)) / Math.max(law.ohms, LEAST_OHMS);
    case 'diode':
      return diodeCurrent(law, volts, edge, 0);
    case 'curve': {
      const size = Math.abs(volts);
      const knee = law.knee * law.volts;
      if (size >= knee) {
        const amps = law.amps * (1 + edge * law.spread) * (size / law.volts) ** law.exponent;
        return volts < 0 ? -amps : amps;
      }
      const cold = coldOhms(law, edge);
      return volts / (cold + ((kneeOhms(law, edge) - cold) * size) / knee);
    }
  }
}

/**
 * Siemens by which the current rises at these volts: dI/dV of `lawCurrent`.
 * @param amps the current at these volts, where it is already known
 */
export function lawSlope(
  law: Law,
  volts: number,
  edge: Edge = 0,
  amps = lawCurrent(law, volts, edge),
): number {
  switch (law.kind) {
    case 'ohms':
    case 'contact':
    case 'fuse':
      return 1 / lawOhms(law, edge);
    case 'source':
      return 1 / Math.max(law.ohms, LEAST_OHMS);
    case 'diode':
      return diodeSlope(law, volts, amps, 0);
    case 'curve': {
      const size = Math.abs(volts);
      const knee = law.knee * law.volts;
      if (size >= knee) return (law.exponent * Math.abs(amps)) / size;
      const cold = coldOhms(law, edge);
      const ohms = cold + ((kneeOhms(law, edge) - cold) * size) / knee;
      return cold / (ohms * ohms);
    }
  }
}

/**
 * Siemens of the straight line from the origin to a curve's point at these volts, I/V; other laws give their slope.
 * Newton's tangent throws an unfed filament from one side to the other; this line does not.
 */
export function lawChord(
  law: Law,
  volts: number,
  edge: Edge = 0,
  amps = lawCurrent(law, volts, edge),
): number {
  if (law.kind !== 'curve') return lawSlope(law, volts, edge, amps);
  return Math.abs(volts) < 1e-12 ? 1 / coldOhms(law, edge) : amps / volts;
}

/** Volts that are left for a curve itself when `ohms` stand in series with it and both together have `volts`. */
export function voltsLeft(law: Law, volts: number, ohms: number, edge: Edge = 0): number {
  if (ohms === 0 || volts === 0) return volts;
  if (ohms === Infinity) return 0;
  let low = Math.min(0, volts);
  let high = Math.max(0, volts);
  let own = volts / (1 + ohms * lawChord(law, volts, edge));
  for (let step = 0; step < 200; step++) {
    const over = own + ohms * lawCurrent(law, own, edge) - volts;
    if (over > 0) high = own;
    else low = own;
    const next = own - over / (1 + ohms * lawSlope(law, own, edge));
    const inside = next > low && next < high ? next : (low + high) / 2;
    if (Math.abs(inside - own) <= 1e-14 * Math.abs(own)) return inside;
    own = inside;
  }
  return own;
}

/** Whether the law is one fixed resistance with or without an EMF. */
export function isLinear(law: Law): boolean {
  return law.kind !== 'curve' && law.kind !== 'diode';
}
