/**
 * Runs: stretches of wires and joints in a row, without a branch and without an item between. The odds that a run has a bad
 * connection do not grow with the number of joints somebody drew in it, so each joint gets its share of the run.
 */
import type { Circuit } from '../circuit/circuit.js';
import type { Element, Network } from '../network/network.js';
import { BATTERY_NEGATIVE, BODY } from '../network/network.js';

/** How likely a joint is the bad one of its run: exposed and often handled ones more. Common practice, no source. */
function likelihood(circuit: Circuit, element: Element): number {
  if (element.owner === 'wire') return 0.5;
  const part = circuit.parts.get(element.part)!;
  switch (part.type) {
    case 'ground':
      return element.site === part.id ? 3 : 1;
    case 'lamp':
      return 2.5;
    case 'connector':
      return 1.5;
    default:
      return 1;
  }
}

/** Run number by element index, for wires and joints only. */
export function runs(network: Network): ReadonlyMap<number, number> {
  const joints = network.elements.filter((element) => element.owner !== 'item');
  const touching = new Map<number, Element[]>();
  for (const element of network.elements) {
    for (const node of [element.a, element.b]) {
      const list = touching.get(node);
      if (list === undefined) touching.set(node, [element]);
      else list.push(element);
    }
  }
  const run = new Map<number, number>();
  let next = 0;
  for (const start of joints) {
    if (run.has(start.index)) continue;
    const todo = [start];
    while (todo.length > 0) {
      const element = todo.pop()!;
      if (run.has(element.index)) continue;
      run.set(element.index, next);
      for (const node of [element.a, element.b]) {
        if (node === BODY || node === BATTERY_NEGATIVE) continue;
        const there = touching.get(node)!;
        if (there.length === 2) todo.push(...there.filter((other) => other.owner !== 'item'));
      }
    }
    next += 1;
  }
  return run;
}

/** Share of its run's odds by element index; the shares of a run add up to 1. */
export function connectionShares(circuit: Circuit, network: Network): ReadonlyMap<number, number> {
  const run = runs(network);
  const total = new Map<number, number>();
  for (const [index, number] of run) {
    total.set(number, (total.get(number) ?? 0) + likelihood(circuit, network.elements[index]!));
  }
  return new Map(
    [...run].map(([index, number]) => [
      index,
      likelihood(circuit, network.elements[index]!) / total.get(number)!,
    ]),
  );
}
