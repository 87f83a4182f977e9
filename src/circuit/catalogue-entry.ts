/** One entry of the part catalogue: keys of a circuit file, by the volts of the system. */
import type { PartDocument } from './document.js';
import type { PartType } from './parts.js';

/** What an entry may say of a part, as it would be written in a circuit file. */
export type CatalogueKeys = Partial<
  Pick<
    PartDocument,
    | 'volts'
    | 'watts'
    | 'amps'
    | 'ohms'
    | 'filaments'
    | 'stall'
    | 'drives'
    | 'coil'
    | 'pull-in'
    | 'drop-out'
    | 'change-over'
  >
>;

export interface CatalogueEntry {
  /** As printed on the part where something is: `P21W`, `70 Ah`. Unique within its type. */
  readonly id: string;
  readonly type: PartType;
  /** What it is, for a list that a person reads. */
  readonly words: string;
  /** The standard or table of the figures, or `from memory`, or `common practice, no source`. */
  readonly source: string;
  /** Invented within what is usual; the plate of the real part goes first. */
  readonly demo: boolean;
  /** By the volts of the system it is made for. */
  readonly made: ReadonlyMap<number, CatalogueKeys>;
}
