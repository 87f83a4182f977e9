/**
 * The most bits one reading of a test can tell, whatever is thought likely before: the capacity of a channel, bounded from above by
 * the farthest of its rows from any one mixture of them; the mixture is found by the steps of Arimoto and Blahut (1972).
 */
import type { PreparedTest } from './prepared.js';

const STEPS = 30;

/** Bits, never too few. */
export function capacityOf({ start, classes, chances, classCount, certain }: PreparedTest): number {
  const most = Math.log2(classCount);
  if (certain) return most;
  const count = start.length - 1;
  const far = new Float64Array(count);
  const mixture = new Float64Array(classCount);
  const shares = new Float64Array(count).fill(1 / count);
  let least = most;
  for (let step = 0; step < STEPS; step++) {
    mixture.fill(0);
    for (let i = 0; i < count; i++)
      for (let e = start[i]!; e < start[i + 1]!; e++) mixture[classes[e]!]! += shares[i]! * chances[e]!;
    far.fill(0);
    for (let i = 0; i < count; i++)
      for (let e = start[i]!; e < start[i + 1]!; e++)
        far[i]! += chances[e]! * Math.log2(chances[e]! / mixture[classes[e]!]!);
    least = Math.min(least, Math.max(...far));
    let sum = 0;
    for (let i = 0; i < count; i++) sum += shares[i] = shares[i]! * 2 ** far[i]!;
    for (let i = 0; i < count; i++) shares[i]! /= sum;
  }
  return least;
}
