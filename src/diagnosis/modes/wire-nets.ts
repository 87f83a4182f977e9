/** Nets of the wiring: nodes that wires and joints connect with no item between, everything plugged. */
import type { Network } from '../../network/network.js';

/** A function from node to the number of its net. */
export function wireNets(network: Network): (node: number) => number {
  const parent = network.nodeNames.map((_, node) => node);
  const root = (node: number): number => {
    let top = node;
    while (parent[top] !== top) top = parent[top]!;
    parent[node] = top;
    return top;
  };
  for (const { owner, a, b } of network.elements) if (owner !== 'item') parent[root(a)] = root(b);
  return root;
}
