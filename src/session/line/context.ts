/** What the meaning of a typed line depends on besides its words. */
import type { Circuit } from '../../circuit/circuit.js';
import type { Event, Recorded } from '../events.js';
import type { Names } from '../names.js';
import type { SetUp } from '../setup.js';

export interface LineContext {
  readonly circuit: Circuit;
  readonly names: Names;
  readonly recorded: readonly Recorded[];
  /** The set-up that stands where this line belongs in time. */
  readonly standing: SetUp;
}

/**
 * Questions a line can ask; none of them changes the session by itself. `redraw` asks for the circuit file to be read anew
 * and recorded as corrected.
 */
export type Query =
  'why' | 'suspects' | 'next' | 'report' | 'help' | 'pause' | 'setup' | 'list' | 'draw' | 'redraw';

/** What a line comes down to before it is checked against the session. */
export type Draft =
  | { readonly kind: 'events'; readonly events: readonly Event[] }
  | { readonly kind: 'query'; readonly query: Query; readonly about: string | undefined };
