/** Every fault that a circuit can have; each family of parts has its modes in modes/. */
import type { Circuit, Part } from '../circuit/circuit.js';
import type { Element, Network } from '../network/network.js';
import type { Fault } from './fault.js';
import { withBurning } from './modes/burning.js';
import { contactModes, couplingModes, fuseModes } from './modes/contacts.js';
import { jointModes, wireModes } from './modes/joints.js';
import { filamentLeadModes, filamentModes, ledLeadModes, ledModes } from './modes/lamps.js';
import { loomModes } from './modes/looms.js';
import { ModeList } from './modes/mode-list.js';
import { moduleModes } from './modes/modules.js';
import { diodeLeadModes, diodeModes, resistorModes, senderModes } from './modes/passives.js';
import { alternatorModes, batteryModes } from './modes/sources.js';
import { withWeakSpots } from './modes/weak-spots.js';
import { coilModes, motorModes, windingLeadModes } from './modes/windings.js';
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
  return withBurning(circuit, network, withWeakSpots(circuit, list.faults));
}

function itemModes(list: ModeList, element: Element, part: Part): void {
  const lead = element.site.endsWith(' lead');
  switch (part.type) {
    case 'fuse':
    case 'fusible link':
    case 'breaker':
      return fuseModes(list, element, part);
    case 'battery':
      return batteryModes(list, element, part);
    case 'alternator':
      return alternatorModes(list, element, part);
    case 'module':
      return moduleModes(list, element, part);
    case 'coupling':
      return couplingModes(list, element, part);
    case 'switch':
      return contactModes(list, element, part);
    case 'relay':
    case 'flasher':
      if (lead) windingLeadModes(list, element, part);
      else if (element.law.kind === 'contact') contactModes(list, element, part);
      return;
    case 'lamp':
      return lead ? filamentLeadModes(list, element, part) : filamentModes(list, element, part);
    case 'LED lamp':
      return lead ? ledLeadModes(list, element, part) : ledModes(list, element, part);
    case 'motor':
      return lead ? windingLeadModes(list, element, part) : motorModes(list, element, part);
    case 'diode':
      return lead ? diodeLeadModes(list, element, part) : diodeModes(list, element, part);
    case 'resistor':
    case 'resistor pack':
      return resistorModes(list, element, part);
    case 'sender':
    case 'thermistor':
      if (lead) senderModes(list, element, part);
      return;
    case 'horn':
    case 'buzzer':
    case 'heater':
    case 'solenoid':
    case 'load':
      return lead ? windingLeadModes(list, element, part) : coilModes(list, element, part);
    case 'connector':
    case 'ground':
    case 'splice':
      return;
  }
}
