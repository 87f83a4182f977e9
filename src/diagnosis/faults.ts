/** Every fault that a circuit can have; each family of parts has its modes in modes/. */
import type { Circuit, Part } from '../circuit/circuit.js';
import type { Element, Network } from '../network/network.js';
import type { Fault } from './fault.js';
import { contactModes, fuseModes } from './modes/contacts.js';
import { jointModes, wireModes } from './modes/joints.js';
import { filamentLeadModes, filamentModes } from './modes/lamps.js';
import { loomModes } from './modes/looms.js';
import { ModeList } from './modes/mode-list.js';
import { diodeLeadModes, diodeModes, resistorModes } from './modes/passives.js';
import { batteryModes } from './modes/sources.js';
import { motorModes, windingLeadModes } from './modes/windings.js';
import { connectionShares } from './runs.js';

export { canBlow } from './fault.js';
export type { Fault, FaultKind, Repair } from './fault.js';

/** In the order of the network's elements, then what lies between stretches of wiring. */
export function listFaults(circuit: Circuit, network: Network): Fault[] {
  const list = new ModeList(circuit, network);
  const shares = connectionShares(circuit, network);
  const wires = new Map(circuit.wires.map((wire) => [wire.id, wire]));
  for (const element of network.elements) {
    const share = shares.get(element.index) ?? 0;
    if (element.owner === 'wire') wireModes(list, element, wires.get(element.part)!, share);
    else if (element.owner === 'position') jointModes(list, element, circuit.parts.get(element.part)!, share);
    else itemModes(list, element, circuit.parts.get(element.part)!);
  }
  loomModes(list);
  return list.faults;
}

function itemModes(list: ModeList, element: Element, part: Part): void {
  switch (element.law.kind) {
    case 'fuse':
      return fuseModes(list, element, part);
    case 'source':
      return batteryModes(list, element, part);
    case 'contact':
      return contactModes(list, element, part);
  }
  const lead = element.site.endsWith(' lead');
  switch (part.type) {
    case 'lamp':
      return lead ? filamentLeadModes(list, element, part) : filamentModes(list, element, part);
    case 'motor':
      return lead ? windingLeadModes(list, element, part) : motorModes(list, element, part);
    case 'diode':
      return lead ? diodeLeadModes(list, element, part) : diodeModes(list, element, part);
    case 'resistor':
      return resistorModes(list, element, part);
    default:
      if (lead) windingLeadModes(list, element, part);
  }
}
