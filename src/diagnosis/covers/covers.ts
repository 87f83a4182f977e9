/** Exact set covering for several faults at once: the three questions the diagnosis asks of it. */
export { irredundantCovers, type IrredundantCovers } from './irredundant-covers.js';
export { minimumCover, type Cover } from './minimum-cover.js';
export { minimalHittingSets } from './minimal-hitting-sets.js';
