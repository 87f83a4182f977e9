/**
 * Lines nobody may probe (airbag, data): the marks on parts and wires and the list at the end of the file, spelled out as
 * points and ids. Marking a wire also marks the terminals that only this wire reaches: a back-probe there is a probe on it.
 */
import type { Part, Wire } from './circuit.js';
import { pointer, type Ranges } from './diagnostic.js';
import type { CircuitDocument } from './document.js';
import type { Mistakes } from './mistakes.js';
import { didYouMean } from './nearest.js';
import { pointsOf, takesSeveralWires, wirePointsOf } from './points.js';

/** Part ids, wire ids and points. */
export function neverProbeOf(
  document: CircuitDocument,
  parts: ReadonlyMap<string, Part>,
  wires: readonly Wire[],
  ranges: Ranges,
  mistakes: Mistakes,
): ReadonlySet<string> {
  const marked = new Set<string>();
  const owner = new Map<string, Part>();
  for (const part of parts.values()) for (const point of wirePointsOf(part)) owner.set(point, part);
  const markPart = (part: Part) => [part.id, ...pointsOf(part)].forEach((name) => marked.add(name));
  const markPoint = (point: string) => {
    marked.add(point);
    const part = owner.get(point);
    if (part && part.type !== 'connector' && point !== part.id) marked.add(`${point}i`);
  };
  const markWire = (wire: Wire) => {
    marked.add(wire.id);
    for (const end of [wire.from, wire.to]) if (!takesSeveralWires(owner.get(end)!)) markPoint(end);
  };

  for (const part of parts.values()) if (part.neverProbe) markPart(part);
  for (const wire of wires) if (wire.neverProbe) markWire(wire);

  const byName = new Map<string, () => void>();
  for (const part of parts.values()) {
    for (const point of pointsOf(part)) byName.set(point.toLowerCase(), () => markPoint(point));
    if (part.type === 'connector') {
      for (const pin of part.pins) {
        const both = [`${part.id}.${pin}h`, `${part.id}.${pin}c`];
        byName.set(`${part.id}.${pin}`.toLowerCase(), () => both.forEach(markPoint));
      }
    }
    byName.set(part.id.toLowerCase(), () => markPart(part));
  }
  for (const wire of wires) byName.set(wire.id.toLowerCase(), () => markWire(wire));
  (document['never-probe'] ?? []).forEach((name, index) => {
    const mark = byName.get(name.toLowerCase());
    if (mark) return mark();
    mistakes.error(
      'unknown-name',
      ranges.value(pointer('never-probe', index)),
      `there is no part, point or wire called “${name}”`,
      didYouMean(name, [...parts.keys(), ...wires.map((wire) => wire.id), ...owner.keys()], 'part'),
    );
  });
  return marked;
}
