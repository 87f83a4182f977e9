/**
 * The data pair of a module. A meter shows means: both wires rest at 2.5 V, and traffic pulls them apart to 3.5 and 1.5 V for a
 * part of the time (ISO 11898-2, from tutorials; on a live bus meters read about 2.6 to 2.8 and 2.2 to 2.4 V, from memory). How
 * much traffic there is nobody knows, so the drivers are resistors anywhere between "always driving" and "never".
 *
 * Sites, with T a terminal: `bias`, `bias on`, `T bias`, `T level`, `T driver`, `T asleep`, `terminator`.
 */
import type { CanPort } from '../circuit/circuit.js';
import type { ModuleAt } from './module-at.js';
import { contactLaw } from './network-builder.js';
import { band, ohmsBand } from './part-laws.js';

/** A driver that drives all the time has some tens of ohms (transceiver data sheets, from memory). */
const DRIVER_OHMS = { ohms: 300, low: 30, high: 1e6 };
const BIAS_OHMS = { ohms: 25e3, low: 0.4, high: 2 };
/** Asleep the wires are held near ground, if at all. */
const ASLEEP_OHMS = { ohms: 50e3, low: 20e3, high: 1e7 };

export function compileCan({ builder, part, minus, powered, awake, asleep }: ModuleAt, port: CanPort): void {
  const working = awake === undefined ? [powered] : [powered, awake];
  const source = (site: string, volts: number, lowVolts: number, highVolts: number): number => {
    const node = builder.node(`${part.id}:${site}`);
    builder.item(part, site, minus, node, { kind: 'source', volts, lowVolts, highVolts, ohms: 1 });
    return node;
  };
  const middle = builder.node(`${part.id}:bus middle`);
  const bias = source('bias', 2.5, 2.2, 2.8);
  builder.item(part, 'bias on', bias, middle, contactLaw(ohmsBand(10, 0.1, 10), working));
  const wire = (terminal: string, level: readonly [number, number, number]) => {
    const node = builder.inside(part, terminal);
    builder.item(part, `${terminal} bias`, middle, node, band(BIAS_OHMS.ohms, BIAS_OHMS.low, BIAS_OHMS.high));
    const driven = source(`${terminal} level`, ...level);
    builder.item(part, `${terminal} driver`, driven, node, contactLaw(DRIVER_OHMS, working));
    if (asleep !== undefined)
      builder.item(part, `${terminal} asleep`, node, minus, contactLaw(ASLEEP_OHMS, [asleep]));
    return node;
  };
  const high = wire(port.high, [3.6, 3.0, 4.5]);
  const low = wire(port.low, [1.4, 0.5, 2.0]);
  if (port.terminatorOhms !== undefined)
    builder.item(part, 'terminator', high, low, band(port.terminatorOhms, 0.95, 1.05));
}
