/** Pins of an in-line connector: counted, listed, or those of a standard. */
import type { PartReader } from './part-reader.js';

/** Pin numbers by standard: ISO 1724 (12N, seven pins), ISO 11446 (13 pins), ISO 1185 (24N, seven pins). */
const STANDARD_PINS: ReadonlyMap<string, number> = new Map([
  ['ISO 1724', 7],
  ['ISO 11446', 13],
  ['ISO 1185', 7],
]);

export function pinsOf({ id, at, document, ranges, mistakes }: PartReader): string[] {
  const { pins, standard } = document;
  const numbered = (count: number) => Array.from({ length: count }, (_, index) => String(index + 1));
  const count = standard === undefined ? undefined : STANDARD_PINS.get(standard);
  if (pins === undefined) {
    if (count === undefined) {
      mistakes.error(
        'missing-key',
        ranges.key(at),
        `${id} does not say how many pins it has`,
        'add pins: 2, or pins: [1, 2]',
      );
    }
    return numbered(count ?? 0);
  }
  const list = typeof pins === 'string' ? numbered(Number(pins)) : [...pins];
  if (count !== undefined && list.some((pin) => !numbered(count).includes(pin))) {
    mistakes.error(
      'contradiction',
      ranges.value(`${at}/pins`),
      `a connector to ${standard} has the pins 1 to ${count}`,
      'leave out pins, or leave out standard',
    );
  }
  const seen = new Map<string, string>();
  list.forEach((pin, index) => {
    const twin = seen.get(pin.toLowerCase());
    if (twin !== undefined) {
      mistakes.error(
        'duplicate-id',
        ranges.value(`${at}/pins/${index}`),
        `pin ${pin} is listed twice`,
        'delete one, or correct the number',
      );
    }
    seen.set(pin.toLowerCase(), pin);
  });
  return [...new Set(list)];
}
