/**
 * The meter of an exercise: an error of its own that stays the same, so that repeating a reading does not average it away, and a
 * little noise in the last digit. Both lie inside what the program allows for a meter (see network/meters.ts).
 */
import type { Typed } from '../session/events.js';
import type { Draw } from './random.js';
import { around } from './random.js';

/** Parts of the reading by which the meter may be off for good. */
const ERROR = { volts: 0.004, ohms: 0.008, amps: 0.012, clamp: 0.02 };
/** Leads of an ohmmeter, at most, ohms. */
const LEADS = 0.4;
/** Parts of the last digit by which a reading moves. */
const NOISE = 0.6;
/** A range ends there; the next one shows ten times as much with one decimal less. Usual for 2000 counts (from memory). */
const COUNTS = 2000;
const FINEST = { volts: 0.0001, ohms: 0.1, amps: 0.01, clamp: 0.01 };

export type Shown = keyof typeof ERROR;

export class Instrument {
  private readonly gain: Readonly<Record<Shown, number>>;
  /** Ohms that the leads add to every reading. */
  readonly leads: number;

  constructor(draw: Draw) {
    this.gain = {
      volts: around(draw, ERROR.volts),
      ohms: around(draw, ERROR.ohms),
      amps: around(draw, ERROR.amps),
      clamp: around(draw, ERROR.clamp),
    };
    this.leads = LEADS * draw();
  }

  /** What the display shows. @param draw noise of this reading */
  show(what: Shown, value: number, draw: Draw): Typed {
    const read = value * this.gain[what];
    let step = FINEST[what];
    while (Math.abs(read) >= COUNTS * step) step *= 10;
    const counts = Math.round(read / step + NOISE * (2 * draw() - 1));
    const decimals = Math.max(0, Math.round(-Math.log10(step)));
    return { value: Number((counts * step).toFixed(decimals)) + 0, step: Number(step.toFixed(4)) };
  }
}
