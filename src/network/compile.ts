/**
 * From a checked circuit to its electrical network. Every value that a circuit file does not give comes from part-laws.ts and
 * the files beside it.
 */
import type { Circuit, Wire } from '../circuit/circuit.js';
import { compilePart } from './compile-part.js';
import { NetworkBuilder } from './network-builder.js';
import type { Network } from './network.js';
import { band, CABLE_MM2, HEAVY_JOINT, JOINT, wireOhms } from './part-laws.js';

export { CHARGING, COPPER_OHM_MM2_PER_M, filamentLaw, RESTED_BAND, wireOhms } from './part-laws.js';

/** Builds the network. The circuit has passed its checks: every wire end exists and there is a battery. */
export function compile(circuit: Circuit): Network {
  const builder = new NetworkBuilder(circuit.wires);
  for (const part of circuit.parts.values()) compilePart(builder, part, circuit.nominalVolts);
  for (const wire of circuit.wires) compileWire(builder, wire, circuit.parts);
  return builder;
}

function compileWire(builder: NetworkBuilder, wire: Wire, parts: Circuit['parts']): void {
  const from = wireEnd(builder, wire, wire.from, parts);
  const to = wireEnd(builder, wire, wire.to, parts);
  // Class 5 conductors may have 13 % over rho·L/A (IEC 60228), and copper gains 0.39 % per kelvin: −20 °C to +60 °C.
  builder.add(wire.id, wire.id, 'wire', from, to, band(wireOhms(wire.mm2, wire.metres), 0.82, 1.35));
}

/** Node where a wire ends. Each wire on a splice or ground stud has a crimp or eyelet of its own. */
function wireEnd(builder: NetworkBuilder, wire: Wire, at: string, parts: Circuit['parts']): number {
  const part = parts.get(at);
  if (part === undefined) return builder.point(at);
  const name = `${at}/${wire.id}`;
  const node = builder.node(name);
  const law = wire.mm2 >= CABLE_MM2 ? HEAVY_JOINT : JOINT;
  builder.add(name, part.id, 'position', node, builder.point(at), law);
  return node;
}
