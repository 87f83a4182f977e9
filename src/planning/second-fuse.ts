/** Before a fuse goes in: is what blew the last one still a suspect? */
import type { BlownFuse } from '../diagnosis/diagnosis-types.js';
import { diagnose } from '../diagnosis/diagnose.js';
import type { Workbench } from '../diagnosis/workbench.js';
import type { Step } from '../session/case.js';
import type { Action, Event, Recorded } from '../session/events.js';
import { foldCase } from '../session/fold.js';
import { undoneNumbers } from '../session/observed-order.js';
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
      const open = blown.find((one) => one.fuse === fuse);
      const shorts = (open?.reasons ?? []).filter(
        ({ why, share, faults }) =>
          why === 'short' && share >= LEAST && !faults.some(({ part }) => mended.has(part)),
      );
      if (open !== undefined && shorts.length > 0)
        return cautionFor(
          open,
          shorts.flatMap(({ faults }) => faults.map(({ part }) => part)),
        );
    }
  }
  return undefined;
}

/**
 * The same for a whole session: each such caution once, as it was shown before the fuse went in. Takes a diagnosis for every
 * time a fuse was put in.
 */
export function secondFusesOfSession(bench: Workbench, recorded: readonly Recorded[]): readonly Caution[] {
  const { circuit } = bench;
  const undone = undoneNumbers(recorded);
  const shown = new Map<string, Caution>();
  recorded.forEach(({ number, event }, index) => {
    if (undone.has(number) || event.type !== 'did' || event.before !== undefined) return;
    if (!putIn(event.action).some((part) => FUSED.has(circuit.parts.get(part)?.type ?? ''))) return;
    const before = foldCase(circuit, recorded.slice(0, index));
    const caution = secondFuse([event], diagnose(bench, before).blown, before.timeline);
    if (caution !== undefined) shown.set(putIn(event.action).join(' '), caution);
  });
  return [...shown.values()];
}

/** Parts with a fuse in them; a module may have an electronic one. */
const FUSED: ReadonlySet<string> = new Set(['fuse', 'fusible link', 'breaker', 'module']);

function cautionFor({ fuse, resets }: BlownFuse, parts: readonly string[]): Caution {
  const names = [...new Set(parts)];
  const more = names.length > MOST_PLACES ? ' ...' : '';
  const places = names.length === 0 ? 'place unknown' : `${names.slice(0, MOST_PLACES).join(', ')}${more}`;
  const id = resets === undefined ? 'second-fuse' : 'trip-again';
  const text = CAUTION_TEXTS[id][1].replaceAll(/FUSE|BREAKER/g, fuse).replace('PLACES', places);
  return { id, text, stop: true, refused: false };
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
