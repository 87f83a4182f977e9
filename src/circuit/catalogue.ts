/**
 * The part catalogue: what a name that is printed on a part means in volts, watts, amperes and ohms, so that a circuit file
 * need not say it (`catalogue: P21W`). An entry is no more than keys of a circuit file; each table beside this file says where
 * its figures are from. Values of motors, heaters and horns are invented within what is usual, and marked demo.
 */
import { BATTERIES } from './catalogue-batteries.js';
import { LAMPS } from './catalogue-lamps.js';
import { LOADS } from './catalogue-loads.js';
import { RELAYS } from './catalogue-relays.js';
import type { CatalogueEntry, CatalogueKeys } from './catalogue-entry.js';
import type { PartType } from './parts.js';

/** In the order in which a list shows them. */
export const CATALOGUE: readonly CatalogueEntry[] = [...LAMPS, ...RELAYS, ...BATTERIES, ...LOADS];

/** Types of parts that the catalogue knows. */
export const CATALOGUE_TYPES: ReadonlySet<PartType> = new Set(CATALOGUE.map(({ type }) => type));

/** An entry by its name, in any case and with any spacing. */
export function inCatalogue(type: PartType, name: string): CatalogueEntry | undefined {
  return CATALOGUE.find((entry) => entry.type === type && plain(entry.id) === plain(name));
}

/** The version of an entry for a system of these volts; undefined where none is made for it. */
export function madeFor(entry: CatalogueEntry, volts: number): CatalogueKeys | undefined {
  for (const [nominal, keys] of entry.made) if (volts > nominal * 0.8 && volts < nominal * 1.25) return keys;
  return undefined;
}

function plain(name: string): string {
  return name.toLowerCase().replaceAll(/[\s_-]+/g, '');
}
