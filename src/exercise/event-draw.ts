/**
 * Chance of an exercise: each event has its own, from the seed and its number. So a reading comes out the same however often the
 * journal is run again, and whatever else was taken back meanwhile.
 */
import type { Draw } from './random.js';
import { random } from './random.js';

export class EventDraw {
  private current: Draw;

  constructor(private readonly seed: number) {
    this.current = random(seed);
  }

  readonly draw: Draw = () => this.current();

  /** From here on the numbers of this event; 0 stands for the vehicle as it comes in. */
  turnTo(event: number): void {
    this.current = random(mixed(this.seed, event));
  }
}

/** A seed of its own for each number; the multipliers are those of MurmurHash3 (public domain). */
export function mixed(seed: number, number: number): number {
  let state = (seed ^ Math.imul(number + 1, 0xcc9e2d51)) >>> 0;
  state = Math.imul(state ^ (state >>> 16), 0x85ebca6b) >>> 0;
  state = Math.imul(state ^ (state >>> 13), 0xc2b2ae35) >>> 0;
  return (state ^ (state >>> 16)) >>> 0;
}
