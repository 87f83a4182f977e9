/** What the coils of a network do and move, gathered from the contacts that depend on them. */
import { coilConds } from './cond.js';
import type { Network } from './network.js';
import type { CoilBand } from './relay-states.js';

/** What a coil that moves nothing does. */
export const AT_REST: CoilBand = { pullInVolts: Infinity, dropOutVolts: Infinity };

/** Contacts (element indices) that a coil moves. */
export function movedBy(network: Network, coil: number): number[] {
  return network.elements.flatMap(({ index, law }) =>
    law.kind === 'contact' && coilConds(law.closed).some((cond) => cond.coil === coil) ? [index] : [],
  );
}

/** The band of a coil stands with the contacts it moves; one that moves none may as well stay at rest. */
export function coilBand(network: Network, coil: number): CoilBand {
  let band: CoilBand = AT_REST;
  const beside: { pulled: number; dropped: number }[] = [];
  for (const { law } of network.elements) {
    if (law.kind !== 'contact') continue;
    const conds = coilConds(law.closed);
    const own = conds.find((cond) => cond.coil === coil);
    if (own === undefined) continue;
    if (band === AT_REST) band = own;
    const others = (rest: 'open' | 'closed') =>
      conds.reduce(
        (mask, cond) =>
          cond !== own && cond.rest === rest ? mask | (1 << network.coils.indexOf(cond.coil)) : mask,
        0,
      );
    beside.push({ pulled: others('open'), dropped: others('closed') });
  }
  const { pullInVolts, dropOutVolts, manner } = band;
  return manner === undefined ? { pullInVolts, dropOutVolts } : { pullInVolts, dropOutVolts, manner, beside };
}
