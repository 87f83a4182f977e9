/** Wires of the document → wires of the circuit, with both ends found and no single-wire terminal taken twice. */
import type { Part, PointId, Wire } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { WireDocument } from './document.js';
import type { Mistakes } from './mistakes.js';
import { weakSpotOf } from './weak-spot.js';
import { pointFinder, takesSeveralWires, wirePointsOf } from './points.js';

/** Reads the wires. A wire whose end is not found is noted and left out. */
export function buildWires(
  documents: readonly WireDocument[],
  parts: ReadonlyMap<string, Part>,
  ranges: Ranges,
  mistakes: Mistakes,
): Wire[] {
  const find = pointFinder(parts, wirePointsOf);
  const owner = new Map<PointId, Part>();
  for (const part of parts.values()) for (const point of wirePointsOf(part)) owner.set(point, part);
  const ids = new Map<string, string>([...parts.keys()].map((id) => [id.toLowerCase(), `part ${id}`]));
  const taken = new Map<PointId, string>();
  const wires: Wire[] = [];

  documents.forEach((document, index) => {
    const at = pointer('wires', index);
    const id = document.id ?? `W${index + 1}`;
    const twin = ids.get(id.toLowerCase());
    if (twin !== undefined) {
      mistakes.error(
        'duplicate-id',
        document.id === undefined ? ranges.value(at) : ranges.value(`${at}/id`),
        document.id === undefined
          ? `wire ${index + 1} gets the id ${id} by its place in the list, but that is also ${twin}`
          : `the id “${id}” is already that of ${twin}`,
        document.id === undefined ? `add id: to this wire, or rename ${twin}` : 'choose another id',
      );
    }
    ids.set(id.toLowerCase(), `wire ${index + 1}`);

    const end = (key: 'from' | 'to'): PointId | undefined => {
      const resolved = find(document[key]);
      if ('point' in resolved) return resolved.point;
      mistakes.error('unknown-name', ranges.value(`${at}/${key}`), resolved.wrong, resolved.mend);
      return undefined;
    };
    const from = end('from');
    const to = end('to');
    const mm2 = mistakes.amount(document.size, 'size', ranges.value(`${at}/size`), 1);
    const metres = mistakes.amount(document.length, 'length', ranges.value(`${at}/length`), 1);
    if (from === undefined || to === undefined) return;
    if (from === to) {
      mistakes.error(
        'wire-to-itself',
        ranges.value(`${at}/to`),
        `wire ${id} goes from ${from} back to ${from}`,
        'correct one of its ends',
      );
      return;
    }
    for (const [key, point] of [
      ['from', from],
      ['to', to],
    ] as const) {
      const part = owner.get(point)!;
      const other = taken.get(point);
      if (other !== undefined && !takesSeveralWires(part)) {
        mistakes.error(
          'two-wires-on-one',
          ranges.value(`${at}/${key}`),
          `${point} already has wire ${other} on it, and it takes only one`,
          'correct this end, or join the wires in a splice: SP9: {type: splice, place: …}',
        );
      }
      taken.set(point, id);
    }
    wires.push({
      id,
      from,
      to,
      mm2,
      metres,
      colour: document.colour ?? '',
      bundle: document.bundle ?? '',
      neverProbe: document['never-probe'] === 'true',
      ...weakSpotOf(document['weak spot'], at, { ranges, mistakes }),
    });
  });
  return wires;
}
