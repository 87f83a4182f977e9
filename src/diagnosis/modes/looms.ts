/**
 * Faults between stretches of wiring: wires of a loom and neighbouring pins that touch, pins in each other's place, loads that
 * somebody tapped in. Stretches that are joined without an item between (one net) cannot be told apart by touching each other.
 */
import type { Connector, Wire } from '../../circuit/circuit.js';
import type { Element } from '../../network/network.js';
import { BATTERY_NEGATIVE, BODY } from '../../network/network.js';
import { FIXED, logScale } from '../severity.js';
import type { ModeList } from './mode-list.js';
import { nameOf } from './mode-list.js';
import { ODDS, WORK } from './odds.js';
import { wireNets } from './wire-nets.js';

/** From bare copper on copper to damp dirt. */
const TOUCHING = logScale('ohm', 1e-3, 1e6, 2);
/** From a small lamp to what a socket for accessories is fused for. */
const TAPPED_WATTS = logScale('W', 5, 200, 4);

export function loomModes(list: ModeList): void {
  const { circuit, network } = list;
  const net = wireNets(network);
  const ground = net(BODY);
  const grounded = (node: number) => net(node) === ground || net(node) === net(BATTERY_NEGATIVE);
  const wires = circuit.wires.map((wire) => ({
    wire,
    element: network.elements[network.sites.get(wire.id)!]!,
  }));
  for (const [bundle, pairs] of pairsOfBundles(wires)) {
    for (const [one, other] of onePerNets(pairs, ({ element }) => net(element.a), ground))
      touchingWires(list, bundle, one, other);
  }
  for (const part of circuit.parts.values()) {
    if (part.type !== 'connector') continue;
    const pins = part.pins.map((pin) => network.elements[network.sites.get(`${part.id}.${pin}`)!]!);
    const neighbours = pins.slice(1).map((pin, i) => [pins[i]!, pin] as const);
    for (const [one, other] of onePerNets(neighbours, (pin) => net(pin.a), ground))
      touchingPins(list, part, one, other);
    const ends = new Set(circuit.wires.flatMap(({ from, to }) => [from, to]));
    const wired = ({ site }: Element) => ends.has(`${site}h`) && ends.has(`${site}c`);
    for (const [one, other] of neighbours) {
      if (wired(one) && wired(other) && net(one.a) !== net(other.a)) crossedPins(list, part, one, other);
    }
  }
  const longest = new Map<number, (typeof wires)[number]>();
  for (const entry of wires) {
    const { wire, element } = entry;
    if (grounded(element.a)) continue;
    const known = longest.get(net(element.a));
    if (known === undefined || wire.metres > known.wire.metres) longest.set(net(element.a), entry);
  }
  for (const { wire, element } of longest.values()) tapped(list, wire, element);
}

interface LoomWire {
  readonly wire: Wire;
  readonly element: Element;
}

function pairsOfBundles(wires: readonly LoomWire[]): Map<string, (readonly [LoomWire, LoomWire])[]> {
  const pairs = new Map<string, (readonly [LoomWire, LoomWire])[]>();
  wires.forEach((one, i) => {
    const { bundle } = one.wire;
    if (bundle === '') return;
    for (const other of wires.slice(i + 1)) {
      if (other.wire.bundle === bundle) pairs.set(bundle, [...(pairs.get(bundle) ?? []), [one, other]]);
    }
  });
  return pairs;
}

/** Of the pairs that join the same two nets only the middle one; none within a net, none with ground (a short to body). */
function onePerNets<T>(
  pairs: readonly (readonly [T, T])[],
  netOf: (end: T) => number,
  ground: number,
): (readonly [T, T])[] {
  const groups = new Map<string, (readonly [T, T])[]>();
  for (const pair of pairs) {
    const nets = pair.map(netOf).sort((a, b) => a - b);
    if (nets[0] === nets[1] || nets.includes(ground)) continue;
    const key = nets.join();
    groups.set(key, [...(groups.get(key) ?? []), pair]);
  }
  return [...groups.values()].map((group) => group[group.length >> 1]!);
}

function touchingWires(list: ModeList, bundle: string, one: LoomWire, other: LoomWire): void {
  const ids = [one.wire.id, other.wire.id] as const;
  list.add(one.element, 'touching', TOUCHING, ODDS.touching, {
    apply: (ohms) => ({ kind: 'bridge', a: one.element.b, b: other.element.b, ohms }),
    repair: {
      how: `separate and insulate the wires ${ids[0]} and ${ids[1]} in the ${bundle}`,
      minutes: WORK.separate,
      price: 2,
    },
    id: `touching ${ids[1]}`,
    label: `wires ${ids[0]} and ${ids[1]} of the ${bundle} touch or leak to each other`,
  });
}

function touchingPins(list: ModeList, part: Connector, one: Element, other: Element): void {
  const [first, second] = [one, other].map(({ site }) => site.slice(part.id.length + 1));
  list.add(one, 'touching', TOUCHING, ODDS.touching, {
    apply: (ohms) => ({ kind: 'bridge', a: one.a, b: other.a, ohms }),
    repair: {
      how: `dry and clean between the pins of connector ${nameOf(part)}`,
      minutes: WORK.clean,
      price: 0,
    },
    id: `touching ${other.site}`,
    label: `pins ${first} and ${second} of connector ${nameOf(part)} touch or leak to each other`,
  });
}

function crossedPins(list: ModeList, part: Connector, one: Element, other: Element): void {
  const [first, second] = [one, other].map(({ site }) => site.slice(part.id.length + 1));
  list.add(one, 'crossed', FIXED, ODDS.crossedPins, {
    apply: () => ({ kind: 'crossed', first: one.index, second: other.index }),
    repair: {
      how: `put pins ${first} and ${second} of connector ${nameOf(part)} in their right places`,
      minutes: WORK.swapPins,
      price: 0,
    },
    id: `crossed ${other.site}`,
    label: `pins ${first} and ${second} of connector ${nameOf(part)} in each other's place`,
  });
}

function tapped(list: ModeList, wire: Wire, element: Element): void {
  const { nominalVolts } = list.circuit;
  const stretch = `wire ${wire.id} (${wire.from} to ${wire.to}) or one joined to it`;
  list.add(element, 'tapped', TAPPED_WATTS, ODDS.tapped, {
    apply: (watts) => ({ kind: 'shunt', node: element.b, ohms: nominalVolts ** 2 / watts }),
    repair: { how: `take away the load tapped into ${stretch}`, minutes: WORK.splice, price: 0 },
    label: `a load tapped into ${stretch} that the drawing does not show`,
  });
}
