/** Rules about frames, metal that is not the body: their names, and the couplings between them and the body. */
import type { Part } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { Mistakes } from './mistakes.js';
import { didYouMean } from './nearest.js';
import { BODY_METAL, framesOf } from './points.js';

/** Notes a frame with the name of something else, and a coupling of a frame to which nothing is grounded. */
export function checkFrames(parts: ReadonlyMap<string, Part>, ranges: Ranges, mistakes: Mistakes): void {
  const frames = framesOf(parts);
  const taken = new Set([...parts.keys(), BODY_METAL, 'bat+', 'bat-'].map((name) => name.toLowerCase()));
  for (const part of parts.values()) {
    const range = ranges.value(pointer('parts', part.id, 'frame'));
    if (part.type === 'ground' && part.frame !== undefined && taken.has(part.frame.toLowerCase())) {
      mistakes.error(
        'duplicate-id',
        range,
        `a frame cannot be called “${part.frame}”, which means something else here`,
        part.frame.toLowerCase() === BODY_METAL
          ? 'leave frame out for a ground on the body'
          : 'choose another name, like trailer',
      );
    }
    if (part.type === 'coupling' && !frames.includes(part.frame)) {
      mistakes.error(
        'unknown-name',
        range,
        `no ground point is bolted to a frame called “${part.frame}”`,
        frames.length === 0
          ? `add frame: ${part.frame} to the grounds on it`
          : didYouMean(part.frame, frames, 'frame'),
      );
    }
  }
}
