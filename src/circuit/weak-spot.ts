/** `weak spot: {times: 3, why: ...}` of a part or wire. */
import type { Circuit } from './circuit.js';
import { pointer } from './diagnostic.js';
import type { WeakSpotDocument } from './document.js';
import type { WeakSpot } from './part-base.js';
import type { PartContext } from './part-reader.js';

/** @param at JSON Pointer of the part or wire */
export function weakSpotOf(
  written: WeakSpotDocument | undefined,
  at: string,
  { ranges, mistakes }: Pick<PartContext, 'ranges' | 'mistakes'>,
): { weakSpot?: WeakSpot } {
  if (written === undefined) return {};
  const times = mistakes.amount(written.times, 'times', ranges.value(at + pointer('weak spot', 'times')), 1);
  return { weakSpot: { times, why: written.why } };
}

/** What the file says of a part or wire. */
export function weakSpotIn({ parts, wires }: Circuit, id: string): WeakSpot | undefined {
  return (parts.get(id) ?? wires.find((wire) => wire.id === id))?.weakSpot;
}
