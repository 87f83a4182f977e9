/** `catalogue: P21W` in a part: the keys of the entry stand in for those that the file leaves out. */
import { CATALOGUE, inCatalogue, madeFor } from './catalogue.js';
import { FUSE_RATINGS } from './catalogue-sizes.js';
import { pointer } from './diagnostic.js';
import type { PartDocument } from './document.js';
import { didYouMean } from './nearest.js';
import type { PartContext, PartReader } from './part-reader.js';
import { parseQuantity } from './quantity.js';

/** Keys of which a part has one: what a file writes itself replaces those of the entry. */
const RATED = ['watts', 'amps', 'ohms', 'filaments'] as const;

/** The part's document, filled in from the catalogue; notes a name that it does not have. */
export function fromCatalogue(id: string, written: PartDocument, context: PartContext): PartDocument {
  const { catalogue: name, type } = written;
  if (name === undefined) return written;
  const { mistakes, ranges, nominalVolts } = context;
  const at = pointer('parts', id, 'catalogue');
  const entry = inCatalogue(type, name);
  if (entry === undefined) {
    const other = CATALOGUE.find((one) => inCatalogue(one.type, name) === one);
    const own = CATALOGUE.filter((one) => one.type === type).map((one) => one.id);
    mistakes.error(
      'unknown-name',
      ranges.value(at),
      `the catalogue has no ${type} “${name}”`,
      other === undefined
        ? didYouMean(name, own, type)
        : `${other.id} is a ${other.type}: correct type or name`,
    );
    return usable(written);
  }
  const own = written.volts === undefined ? undefined : parseQuantity(written.volts, 'volts');
  const volts = own !== undefined && 'value' in own ? own.value : nominalVolts;
  const keys = madeFor(entry, volts);
  if (keys === undefined) {
    const made = [...entry.made.keys()].map((nominal) => `${nominal} V`).join(' and ');
    mistakes.error(
      'contradiction',
      ranges.value(at),
      `${entry.id} is made for ${made}, but this ${type} gets ${volts} V`,
      'choose another one, or give its values in place of catalogue',
    );
    return usable(written);
  }
  const rated = RATED.filter((key) => written[key] !== undefined);
  if (type === 'lamp' && rated.length > 0) {
    mistakes.error(
      'contradiction',
      ranges.key(pointer('parts', id, rated[0]!)),
      `${id} says ${entry.id}, which gives its watts, and ${rated[0]!} as well`,
      'delete one of the two',
    );
  }
  const kept = Object.entries(keys).filter(
    ([key]) => rated.length === 0 || !(RATED as readonly string[]).includes(key),
  );
  return { ...Object.fromEntries(kept), ...written };
}

/** Something in place of what an unknown entry would have said, so that the mistake is told once. */
function usable(written: PartDocument): PartDocument {
  if (RATED.some((key) => written[key] !== undefined)) return written;
  switch (written.type) {
    case 'lamp':
      return { ...written, watts: '21 W' };
    case 'battery':
    case 'relay':
      return written;
    default:
      return { ...written, amps: '5 A' };
  }
}

/** Advises on a fuse of amperes that no fuse is made with: most often a slip of the pen. */
export function adviseRating({ id, at, document, mistakes, ranges }: PartReader, amps: number): void {
  if (document.rating === undefined || FUSE_RATINGS.includes(amps)) return;
  const less = FUSE_RATINGS.findLast((rating) => rating < amps);
  const more = FUSE_RATINGS.find((rating) => rating > amps);
  const next = [less, more].filter((rating) => rating !== undefined).map((rating) => `${rating} A`);
  mistakes.advice(
    'odd-rating',
    ranges.value(`${at}/rating`),
    `${id}: no fuse is made with ${amps} A`,
    `read the number on it again; the next ones have ${next.join(' and ')}`,
  );
}
