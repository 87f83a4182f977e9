/** Rules about single points: every terminal is wired, every connector pin on both sides or on none. */
import { calledOf, type Part, type Wire } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { Mistakes } from './mistakes.js';
import { wirePointsOf } from './points.js';

/** Notes each terminal that no wire reaches, and each splice that joins nothing. */
export function checkWiring(
  parts: ReadonlyMap<string, Part>,
  wires: readonly Wire[],
  ranges: Ranges,
  mistakes: Mistakes,
): void {
  const ends = new Map<string, number>();
  for (const wire of wires) {
    for (const point of [wire.from, wire.to]) ends.set(point, (ends.get(point) ?? 0) + 1);
  }
  for (const part of parts.values()) {
    const range = ranges.key(pointer('parts', part.id));
    const loose = wirePointsOf(part).filter((point) => !ends.has(point));
    if (part.type === 'connector') {
      for (const pin of part.pins) {
        const sides = ['h', 'c'].filter((side) => loose.includes(`${part.id}.${pin}${side}`));
        // A pin with no wire on either side is a spare one; a plug of a standard always has some.
        if (sides.length !== 1) continue;
        const [bare, wired] = sides[0] === 'h' ? ['h', 'c'] : ['c', 'h'];
        mistakes.error(
          'wired-to-nothing',
          range,
          `pin ${part.id}.${pin} has a wire on its ${side(wired)} side only`,
          `add the wire that goes on from ${part.id}.${pin}${bare}`,
        );
      }
      if (loose.length === part.pins.length * 2) {
        mistakes.error(
          'wired-to-nothing',
          range,
          `no wire goes through connector ${part.id}`,
          'add its wires, or delete it',
        );
      }
      continue;
    }
    if (part.type === 'splice' && (ends.get(part.id) ?? 0) === 1) {
      mistakes.error(
        'wired-to-nothing',
        range,
        `only one wire ends in splice ${part.id}, so it joins nothing`,
        'add the other wires, or delete the splice',
      );
    }
    for (const point of loose) {
      mistakes.error(
        'wired-to-nothing',
        range,
        point === part.id
          ? `no wire ends on ${calledOf(part)}`
          : `terminal ${point} of ${part.label} is wired to nothing`,
        point === part.id ? 'add its wires, or delete it' : `add a wire from or to ${point}`,
      );
    }
  }
}

function side(letter: string | undefined): string {
  return letter === 'h' ? 'harness' : 'component';
}
