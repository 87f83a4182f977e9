/** A flasher unit: a contact that opens and closes by itself; an electronic one needs its own ground for that. */
import type { Flasher } from '../circuit/circuit.js';
import { contactLaw, type NetworkBuilder } from './network-builder.js';
import type { SingleCond } from './network.js';
import { CONTACT_OHMS, ohmsBand, supplyBand } from './part-laws.js';

/** What the electronics draw: some tens of milliamperes, as ohms at 12 V (common practice, no source). */
const ELECTRONICS_OHMS = ohmsBand(1000, 0.2, 5);

export function compileFlasher(builder: NetworkBuilder, part: Flasher, nominalVolts: number): void {
  const closed: SingleCond[] = [];
  if (part.terminals.includes('31')) {
    const electronics = builder.load(part, 'electronics', '49', '31', { kind: 'ohms', ...ELECTRONICS_OHMS });
    closed.push(builder.coil(electronics, { ...supplyBand(nominalVolts), rest: 'open' }));
  }
  // Its own state is nobody's volts: with a thermal one it follows heat, and without a load it may stay closed or open.
  const alternating = { pullInVolts: Infinity, dropOutVolts: -Infinity, manner: 'alternating' } as const;
  closed.push(builder.coil(builder.next, { ...alternating, rest: 'open' }));
  const law = contactLaw(CONTACT_OHMS, closed);
  builder.item(part, '49-49a', builder.inside(part, '49'), builder.inside(part, '49a'), law);
}
