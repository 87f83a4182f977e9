/**
 * Faults that join what the drawing keeps apart: a bridge between two nodes, joints whose far ends are exchanged, an element
 * that hangs between other nodes. They change which nodes are neighbours, so they cannot be values of the drawn network; here
 * they become extra elements of another network, and every variant, corner and sign is carried over from one to the other.
 */
import type { Law, Network } from './network.js';
import type { AddedElement, AppliedFault, Variant } from './solver-types.js';

export interface Rewired {
  /** Equal for variants that one rewired network can serve. */
  readonly key: string;
  /** What comes after the network's elements and the added ones: moved elements in order of first mention, then bridges. */
  readonly extra: readonly AddedElement[];
  /** The moved elements as the drawn network numbers them; entry i is extra element i. */
  readonly moved: readonly number[];
}

const REWIRING: ReadonlySet<AppliedFault['kind']> = new Set(['bridge', 'crossed', 'rehung']);

/** What these faults rewire; undefined, at no cost, for the usual ones that rewire nothing. */
export function rewire(
  network: Network,
  added: readonly AddedElement[],
  faults: readonly AppliedFault[],
): Rewired | undefined {
  if (!faults.some(({ kind }) => REWIRING.has(kind))) return undefined;
  const ends = new Map<number, { readonly a: number; readonly b: number }>();
  const bridges: AddedElement[] = [];
  const element = (index: number) => network.elements[index] ?? added[index - network.elements.length]!;
  const endsOf = (index: number) => ends.get(index) ?? element(index);
  for (const fault of faults) {
    switch (fault.kind) {
      case 'bridge':
        bridges.push({ a: fault.a, b: fault.b, law: fixed(fault.ohms) });
        break;
      case 'rehung':
        ends.set(fault.element, { a: fault.a, b: fault.b });
        break;
      case 'crossed': {
        const [one, other] = [endsOf(fault.first), endsOf(fault.second)];
        ends.set(fault.first, { a: one.a, b: other.b }).set(fault.second, { a: other.a, b: one.b });
      }
    }
  }
  const moved = [...ends.keys()];
  const rehung = [...ends].map(([index, { a, b }]): AddedElement => ({ a, b, law: element(index).law }));
  const key = [
    ...[...ends].map(([index, { a, b }]) => `${index}:${a}>${b}`),
    ...bridges.map(({ a, b }) => `${a}-${b}`),
  ];
  return { key: key.join(' '), extra: [...rehung, ...bridges], moved };
}

/**
 * The same variant for a solver that has the extra elements.
 * @param count elements of the drawn network and the added ones
 */
export function rewiredVariant(rewired: Rewired, network: Network, count: number, variant: Variant): Variant {
  const { moved, extra } = rewired;
  const faults: AppliedFault[] = [];
  const open = (element: number) => faults.push({ kind: 'series', element, ohms: Infinity });
  let bridge = count + moved.length;
  for (const fault of variant.faults) {
    if (fault.kind === 'bridge') faults.push({ kind: 'law', element: bridge++, law: fixed(fault.ohms) });
    else if (fault.kind === 'shunt') faults.push(fault);
    else if (fault.kind !== 'crossed' && fault.kind !== 'rehung')
      faults.push({ ...fault, element: rewiredElement(rewired, count, fault.element) });
  }
  moved.forEach((index, i) => {
    open(index);
    if (index < network.elements.length && variant.present[index] === 0) open(count + i);
  });
  if (variant.corner === undefined) return { ...variant, faults };
  const corner = new Int8Array(count + extra.length);
  corner.set(variant.corner);
  moved.forEach((index, i) => {
    corner[count + i] = variant.corner![index]!;
  });
  return { ...variant, faults, corner };
}

/** Where an element of the drawn network stands in the rewired one: one that has moved, or itself. */
export function rewiredElement({ moved }: Rewired, count: number, element: number): number {
  const place = moved.indexOf(element);
  return place < 0 ? element : count + place;
}

/** Signs per rewired element, told for the elements of the drawn network and the added ones. */
export function drawnSigns({ moved }: Rewired, count: number, signs: Int8Array): Int8Array {
  const drawn = signs.slice(0, count);
  moved.forEach((index, i) => {
    drawn[index] = signs[count + i]!;
  });
  return drawn;
}

function fixed(ohms: number): Law {
  return { kind: 'ohms', ohms, low: ohms, high: ohms };
}
