/** Before a fuse goes in: is what blew the last one still a suspect? */
import type { BlownFuse } from '../diagnosis/diagnosis-types.js';
import type { Step } from '../session/case.js';
import type { Action, Event } from '../session/events.js';
import { isRepair } from '../diagnosis/proof-of-repair.js';
import { CAUTION_TEXTS } from './caution-texts.js';
import type { Caution } from './cautions.js';

/** A short below this share is not worth a warning. */
const LEAST = 0.02;
const MOST_PLACES = 4;

/**
 * The caution to show before one of these events puts a fuse in behind which a short is still suspected, and nothing was
 * mended at its place; undefined when none does.
 * @param blown of the diagnosis before the events
 */
export function secondFuse(
  events: readonly Event[],
  blown: readonly BlownFuse[],
  timeline: readonly Step[],
): Caution | undefined {
  const mended = new Set(
    timeline.flatMap((step) =>
      step.kind === 'action' && isRepair(step.action) ? [placeOf(step.action)] : [],
    ),
  );
  for (const event of events) {
    if (event.type !== 'did' || event.before !== undefined) continue;
    for (const fuse of putIn(event.action)) {
      const shorts = (blown.find((one) => one.fuse === fuse)?.reasons ?? []).filter(
        ({ why, share, faults }) =>
          why === 'short' && share >= LEAST && !faults.some(({ part }) => mended.has(part)),
      );
      if (shorts.length > 0)
        return cautionFor(
          fuse,
          shorts.flatMap(({ faults }) => faults.map(({ part }) => part)),
        );
    }
  }
  return undefined;
}

function cautionFor(fuse: string, parts: readonly string[]): Caution {
  const names = [...new Set(parts)];
  const more = names.length > MOST_PLACES ? ' ...' : '';
  const places = names.length === 0 ? 'place unknown' : `${names.slice(0, MOST_PLACES).join(', ')}${more}`;
  const text = CAUTION_TEXTS['second-fuse'][1].replaceAll('FUSE', fuse).replace('PLACES', places);
  return { id: 'second-fuse', text, stop: true, refused: false };
}

function putIn(action: Action): readonly string[] {
  switch (action.do) {
    case 'refit':
    case 'fit new':
    case 'fit known-good':
    case 'reset':
      return [action.part];
    case 'swap':
      return action.parts;
    default:
      return [];
  }
}

function placeOf(action: Action): string {
  const at = 'at' in action ? action.at : 'part' in action ? action.part : '';
  return at.split(/[./:]/)[0]!;
}
