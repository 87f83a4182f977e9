/** Filaments of a lamp: one by its watts, or several by their terminals. */
import { pointer } from './diagnostic.js';
import type { PartReader } from './part-reader.js';
import type { Filament } from './parts.js';

export function filamentsOf({ id, at, document, ranges, mistakes }: PartReader, volts: number): Filament[] {
  const { watts, filaments } = document;
  if ((watts === undefined) === (filaments === undefined)) {
    mistakes.error(
      watts === undefined ? 'missing-key' : 'contradiction',
      ranges.key(watts === undefined ? at : `${at}/filaments`),
      watts === undefined ? `${id} has neither watts nor filaments` : `${id} has both watts and filaments`,
      'give catalogue: P21W (the name on its cap), or watts: 21 W, or filaments: {54: 21 W, 58: 5 W} for two',
    );
  }
  if (filaments === undefined) {
    return [
      { terminal: '1', watts: mistakes.amount(watts, 'watts', ranges.value(`${at}/watts`), 21), volts },
    ];
  }
  return Object.entries(filaments).map(([terminal, text]) => {
    const here = at + pointer('filaments', terminal);
    if (terminal === '31') {
      mistakes.error(
        'contradiction',
        ranges.key(here),
        `31 is the ground terminal of lamp ${id}`,
        'use the feed terminal, such as 54 or 58',
      );
    }
    return { terminal, watts: mistakes.amount(text, 'watts', ranges.value(here), 21), volts };
  });
}
