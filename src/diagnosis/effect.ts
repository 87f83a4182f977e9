/**
 * Which faults can change an answer at all, and which ones change it alike. Most faults of a drawing lie where nothing flows in a
 * given set-up, and most of the others lie in one unbranched run with many of their like: neither needs a solve of its own.
 */
import type { Network } from '../network/network.js';
import { BATTERY_NEGATIVE, BODY } from '../network/network.js';
import type { AppliedFault } from '../network/solver-types.js';

/** Volts (or probe volts) of change below which a fault counts as without effect. */
const NO_CHANGE = 1e-6;
/** An open circuit, the largest series fault there is; and the smallest ohms of a short. */
const OPEN_OHMS = 1e11;
const SHORT_OHMS = 1e-3;

/** How the network stands, and how the quantity answers to an ampere fed in between two nodes. */
export interface Standpoint {
  readonly volts: Float64Array;
  /** Volts at each node for one ampere between the two nodes that are read. */
  readonly response: Float64Array;
}

/**
 * Can the fault move the quantity by more than a microvolt, at any severity? From the rank-one formula of a changed branch
 * (Sherman, Morrison 1950, from memory): the change is at most |current| × |adjoint current| × added ohms. Errs to true.
 */
export function hasEffect(
  network: Network,
  present: Uint8Array,
  standpoints: readonly Standpoint[],
  fault: AppliedFault,
): boolean {
  const most = (a: number, b: number) =>
    standpoints.reduce(
      (worst, { volts, response }) =>
        Math.max(worst, Math.abs(volts[a]! - volts[b]!) * Math.abs(response[a]! - response[b]!)),
      0,
    );
  switch (fault.kind) {
    case 'series': {
      const { a, b, law } = network.elements[fault.element]!;
      if (present[fault.element] === 0) return false;
      if (law.kind !== 'ohms' && law.kind !== 'contact' && law.kind !== 'fuse') return true;
      return (most(a, b) / (law.ohms * law.ohms)) * OPEN_OHMS > NO_CHANGE;
    }
    case 'shunt':
      return most(fault.node, BODY) / SHORT_OHMS > NO_CHANGE;
    case 'bridge':
      return most(fault.a, fault.b) / SHORT_OHMS > NO_CHANGE;
    case 'law': {
      const { a, b, law } = network.elements[fault.element]!;
      if (law.kind === 'source' || fault.law.kind === 'source') return true;
      return most(a, b) / SHORT_OHMS > NO_CHANGE;
    }
    case 'stuck': {
      const { a, b, law } = network.elements[fault.element]!;
      const moved = law.kind === 'contact' && law.closed.kind !== 'control';
      if (!moved && fault.closed && present[fault.element] === 1) return false;
      return most(a, b) / SHORT_OHMS > NO_CHANGE || (!fault.closed && present[fault.element] === 1);
    }
    case 'crossed':
    case 'rehung':
      return true;
  }
}

/**
 * For each element the one that stands for it: added ohms anywhere in an unbranched run of wires, joints, fuses and contacts
 * act alike, as long as nothing is attached between them. `attached`: nodes of meters, jumpers and the reading.
 */
export function runRepresentatives(
  network: Network,
  present: Uint8Array,
  attached: Iterable<number>,
): Int32Array {
  const { elements, nodeNames } = network;
  const held = new Uint8Array(nodeNames.length);
  held[BATTERY_NEGATIVE] = 1;
  held[BODY] = 1;
  for (const node of attached) held[node] = 1;
  const touching = Array.from({ length: nodeNames.length }, (): number[] => []);
  for (const { index, a, b } of elements) {
    if (present[index] === 0) continue;
    touching[a]!.push(index);
    touching[b]!.push(index);
  }
  const isLink = (index: number) => {
    const { kind } = elements[index]!.law;
    return kind === 'ohms' || kind === 'contact' || kind === 'fuse';
  };
  const coils = new Set(network.coils);
  const representative = new Int32Array(elements.length).fill(-1);
  for (const { index } of elements) {
    if (representative[index] !== -1) continue;
    representative[index] = index;
    if (present[index] === 0 || !isLink(index) || coils.has(index)) continue;
    const todo = [index];
    while (todo.length > 0) {
      const { a, b } = elements[todo.pop()!]!;
      for (const node of [a, b]) {
        const [first, second, more] = touching[node]!;
        if (held[node] || more !== undefined || second === undefined) continue;
        for (const next of [first!, second]) {
          if (representative[next] !== -1 || !isLink(next) || coils.has(next)) continue;
          representative[next] = index;
          todo.push(next);
        }
      }
    }
  }
  return representative;
}

/** Nodes at which a fault attaches something of its own: a run does not pass through them. */
export function nodesOf(network: Network, fault: AppliedFault): readonly number[] {
  switch (fault.kind) {
    case 'shunt':
      return [fault.node];
    case 'bridge':
      return [fault.a, fault.b];
    case 'crossed':
      return [fault.first, fault.second].flatMap((index) => {
        const { a, b } = network.elements[index]!;
        return [a, b];
      });
    case 'stuck':
    case 'law':
    case 'rehung': {
      const { a, b } = network.elements[fault.element]!;
      return fault.kind === 'rehung' ? [a, b, fault.a, fault.b] : [a, b];
    }
    case 'series':
      return [];
  }
}
