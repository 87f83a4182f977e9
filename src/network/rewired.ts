/**
 * Faults that join what the drawing keeps apart: a bridge between two nodes, joints whose far ends are exchanged. They change
 * which nodes are neighbours, so they cannot be values of the drawn network; here they become extra elements of another
 * network, and every variant, corner and sign is carried over from one to the other.
 */
import type { Law, Network } from './network.js';
import type { AddedElement, AppliedFault, Variant } from './solver-types.js';

export interface Rewired {
  /** Equal for variants that one rewired network can serve. */
  readonly key: string;
  /** What comes after the network's elements and the added ones: crossed joints in order of first mention, then bridges. */
  readonly extra: readonly AddedElement[];
  /** The crossed joints, as elements of the drawn network; entry i is extra element i. */
  readonly joints: readonly number[];
}

/** What these faults rewire; undefined, at no cost, for the usual ones that rewire nothing. */
export function rewire(
  network: Network,
  added: readonly AddedElement[],
  faults: readonly AppliedFault[],
): Rewired | undefined {
  if (!faults.some(({ kind }) => kind === 'bridge' || kind === 'crossed')) return undefined;
  const far = new Map<number, number>();
  const bridges: AddedElement[] = [];
  const element = (index: number) => network.elements[index] ?? added[index - network.elements.length]!;
  const farEnd = (joint: number) => far.get(joint) ?? element(joint).b;
  for (const fault of faults) {
    if (fault.kind === 'bridge') bridges.push({ a: fault.a, b: fault.b, law: fixed(fault.ohms) });
    if (fault.kind !== 'crossed') continue;
    const { first, second } = fault;
    const [one, other] = [farEnd(first), farEnd(second)];
    far.set(first, other).set(second, one);
  }
  const joints = [...far.keys()];
  const crossed = joints.map((joint): AddedElement => {
    const { a, law } = element(joint);
    return { a, b: far.get(joint)!, law };
  });
  const key = [
    ...joints.map((joint) => `${joint}>${far.get(joint)}`),
    ...bridges.map(({ a, b }) => `${a}-${b}`),
  ];
  return { key: key.join(' '), extra: [...crossed, ...bridges], joints };
}

/**
 * The same variant for a solver that has the extra elements.
 * @param count elements of the drawn network and the added ones
 */
export function rewiredVariant(rewired: Rewired, network: Network, count: number, variant: Variant): Variant {
  const { joints, extra } = rewired;
  const faults: AppliedFault[] = [];
  const open = (element: number) => faults.push({ kind: 'series', element, ohms: Infinity });
  let bridge = count + joints.length;
  for (const fault of variant.faults) {
    if (fault.kind === 'bridge') faults.push({ kind: 'law', element: bridge++, law: fixed(fault.ohms) });
    else if (fault.kind === 'shunt') faults.push(fault);
    else if (fault.kind !== 'crossed')
      faults.push({ ...fault, element: rewiredElement(rewired, count, fault.element) });
  }
  joints.forEach((joint, i) => {
    open(joint);
    if (joint < network.elements.length && variant.present[joint] === 0) open(count + i);
  });
  if (variant.corner === undefined) return { ...variant, faults };
  const corner = new Int8Array(count + extra.length);
  corner.set(variant.corner);
  joints.forEach((joint, i) => {
    corner[count + i] = variant.corner![joint]!;
  });
  return { ...variant, faults, corner };
}

/** Where an element of the drawn network stands in the rewired one: a crossed joint has moved, all others stay. */
export function rewiredElement({ joints }: Rewired, count: number, element: number): number {
  const moved = joints.indexOf(element);
  return moved < 0 ? element : count + moved;
}

/** Signs per rewired element, told for the elements of the drawn network and the added ones. */
export function drawnSigns({ joints }: Rewired, count: number, signs: Int8Array): Int8Array {
  const drawn = signs.slice(0, count);
  joints.forEach((joint, i) => {
    drawn[joint] = signs[count + i]!;
  });
  return drawn;
}

function fixed(ohms: number): Law {
  return { kind: 'ohms', ohms, low: ohms, high: ohms };
}
