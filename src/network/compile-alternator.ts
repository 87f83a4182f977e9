/**
 * An alternator: windings that give volts while the engine drives them and the field is excited, diodes that join them to B+
 * and D+, a field winding with its regulator between D+ and the housing.
 *
 * Elements, for faults to sit on: `stator` (the volts its regulator holds), `belt` (driven and excited), `rectifier` (diodes to
 * B+), `diodes` (to D+), `field`, `regulator`, `leak` (what its diodes let back from B+).
 */
import type { Alternator } from '../circuit/circuit.js';
import { contactLaw, type NetworkBuilder } from './network-builder.js';
import type { Law, SingleCond } from './network.js';
import { BODY } from './network.js';
import { band, JOINT, ohmsBand } from './part-laws.js';

/**
 * Rotor winding with brushes and regulator: 3 to 15 Ω at 12 V (common practice, no source). The spread is given to the regulator, for
 * what excites is the current through the winding, and its volts stand for that.
 */
const WINDING_OHMS = 3;
const REGULATOR = { ohms: 3, low: 0.1, high: 4 };
/**
 * From this current on D+ surely excites it: a charge lamp of 3 W gives a quarter of an ampere, one of 2 W a sixth. Below, what magnetism
 * is left may do it at higher speed, or not (common practice, no source). Amperes at 12 V.
 */
const EXCITED_AMPS = 0.1;
/** Regulators hold 13.2 to 14.9 V in 12 V systems, cold, hot and idling (trade practice, from memory). */
const HELD = { low: 0.93, high: 1.05 };
/** Volts it loses at 12 V between idling and its rated current (common practice, no source). */
const DROOP = 0.8;

export function compileAlternator(builder: NetworkBuilder, part: Alternator, nominalVolts: number): void {
  const scale = nominalVolts / 12;
  const has = (terminal: string) => part.terminals.includes(terminal);
  const output = builder.inside(part, 'B+');
  const housing = builder.inside(part, '31');
  if (!has('31')) builder.add(`${part.id}.31`, part.id, 'position', BODY, housing, JOINT);
  const windings = builder.node(`${part.id}:windings`);
  const driven = builder.node(`${part.id}:driven`);
  builder.item(part, 'stator', housing, windings, {
    kind: 'source',
    volts: part.volts,
    lowVolts: part.volts * HELD.low,
    highVolts: part.volts * HELD.high,
    ohms: (DROOP * scale) / part.amps,
  });
  const turns: SingleCond[] = [{ kind: 'engine', state: 'running' }];
  if (has('D+')) {
    const plus = builder.inside(part, 'D+');
    const brush = builder.node(`${part.id}:brush`);
    const ohms = WINDING_OHMS * scale * scale;
    const field = builder.item(part, 'field', plus, brush, band(ohms, 0.95, 1.05));
    builder.item(
      part,
      'regulator',
      brush,
      housing,
      band(REGULATOR.ohms * scale * scale, REGULATOR.low, REGULATOR.high),
    );
    const pullInVolts = (EXCITED_AMPS / scale) * ohms;
    turns.push(builder.coil(field, { pullInVolts, dropOutVolts: -Infinity, rest: 'open' }));
    builder.item(part, 'diodes', driven, plus, oneWay(0.05));
  }
  builder.item(part, 'belt', windings, driven, contactLaw(ohmsBand(1e-4, 0.5, 2), turns));
  builder.item(part, 'rectifier', driven, output, oneWay(0.001));
  builder.item(part, 'leak', output, housing, band(1e6, 0.1, 100));
}

/** Diodes whose forward volts the regulator makes up for, since it holds the volts behind them. */
function oneWay(ohms: number): Law {
  return { kind: 'diode', forwardVolts: 0, ohms, spread: 0 };
}
