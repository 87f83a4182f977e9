/**
 * In which order the nodes of a network are eliminated, and which conductances each step touches.
 *
 * Worked out once per topology; the numbers change per variant, the plan does not. Nodes of low degree go first
 * (minimum-degree ordering), so that a loom, which is nearly a tree, stays sparse. The tail (ends of filaments, motors and
 * diodes, then body metal) goes last, so that only the tail is repeated while those settle.
 */
import { BATTERY_NEGATIVE, BODY } from './network.js';

export interface EliminationPlan {
  readonly nodeCount: number;
  /** Conductances kept, one per pair of nodes that ever become neighbours. */
  readonly slotCount: number;
  /** Slots from this one on join two nodes of the tail (or the tail and node 0). */
  readonly firstTailSlot: number;
  /** Both nodes of slot i at 2i and 2i+1. */
  readonly ends: Int32Array;
  /**
   * Per step: the node, its number of neighbours m, then m times (slot, neighbour), then the slots of the m(m−1)/2 pairs of
   * neighbours. Node 0 is never eliminated: it is the reference.
   */
  readonly steps: Int32Array;
  /** Where each step begins in `steps`, and the end. */
  readonly starts: Int32Array;
  /** The first so many steps eliminate the head. */
  readonly headSteps: number;
  /** Nodes of the tail. */
  readonly tail: Int32Array;
  /** Slot of two different nodes that an edge of the plan joins. */
  slot(a: number, b: number): number;
}

/**
 * Neighbours above which a node of the head (a fuse box bar, a splice, a common ground) is left to the tail: eliminated first, it would
 * make neighbours of all the lamps around it, which the tail then eliminates again in every step.
 */
const MOST_AROUND = 4;

const HEAD = 0;
const TAIL = 1;

/**
 * Plans the elimination of a network whose every node also has an edge to body metal.
 * @param edges pairs of nodes, flat: a0, b0, a1, b1 …; a pair of equal nodes is ignored
 * @param tail nodes to keep for the end
 */
export function planElimination(
  nodeCount: number,
  edges: readonly number[],
  tail: Iterable<number>,
): EliminationPlan {
  const order = orderOf(nodeCount, edges, tail);
  const headSteps = order.findIndex(({ inHead }) => !inHead);
  // Two neighbours share a slot, numbered when the first of them goes.
  const slots = new Int32Array(nodeCount * nodeCount);
  const ends: number[] = [];
  const startOf = order.map(({ node, around }) => {
    const start = ends.length / 2;
    for (const other of around) {
      slots[node * nodeCount + other] = slots[other * nodeCount + node] = ends.length / 2;
      ends.push(node, other);
    }
    return start;
  });
  const slot = (a: number, b: number) => slots[a * nodeCount + b]!;
  const steps: number[] = [];
  const starts = [0];
  for (const { node, around } of order) {
    steps.push(node, around.length);
    for (const other of around) steps.push(slot(node, other), other);
    for (let i = 0; i < around.length; i++) {
      for (let j = i + 1; j < around.length; j++) steps.push(slot(around[i]!, around[j]!));
    }
    starts.push(steps.length);
  }
  return {
    nodeCount,
    slotCount: ends.length / 2,
    firstTailSlot: startOf[headSteps]!,
    ends: Int32Array.from(ends),
    steps: Int32Array.from(steps),
    starts: Int32Array.from(starts),
    headSteps,
    tail: Int32Array.from(order.slice(headSteps), (step) => step.node),
    slot,
  };
}

interface Elimination {
  readonly node: number;
  /** Its neighbours when it goes. */
  readonly around: readonly number[];
  readonly inHead: boolean;
}

/** All nodes but the reference, in the order in which they go: the head, the tail, body metal. */
function orderOf(nodeCount: number, edges: readonly number[], tail: Iterable<number>): Elimination[] {
  const rank = new Uint8Array(nodeCount);
  for (const node of tail) rank[node] = TAIL;
  rank[BODY] = 2;
  rank[BATTERY_NEGATIVE] = 3;
  const joined = new Uint8Array(nodeCount * nodeCount);
  const neighbours = Array.from({ length: nodeCount }, (): number[] => []);
  const degree = new Int32Array(nodeCount);
  const join = (a: number, b: number) => {
    if (a === b || joined[a * nodeCount + b] !== 0) return;
    joined[a * nodeCount + b] = joined[b * nodeCount + a] = 1;
    neighbours[a]!.push(b);
    neighbours[b]!.push(a);
    degree[a]!++;
    degree[b]!++;
  };
  for (let i = 0; i < edges.length; i += 2) join(edges[i]!, edges[i + 1]!);
  for (let node = 0; node < nodeCount; node++) join(node, BODY);

  const order: Elimination[] = [];
  const gone = new Uint8Array(nodeCount);
  while (order.length < nodeCount - 1) {
    let node = -1;
    let least = Infinity;
    for (let i = 1; i < nodeCount; i++) {
      const worth = gone[i] !== 0 ? Infinity : rank[i]! * nodeCount + degree[i]!;
      if (worth >= least) continue;
      least = worth;
      node = i;
    }
    if (rank[node] === HEAD && degree[node]! > MOST_AROUND) {
      rank[node] = TAIL;
      continue;
    }
    gone[node] = 1;
    const around = neighbours[node]!.filter((other) => gone[other] === 0);
    order.push({ node, around, inHead: rank[node] === HEAD });
    for (let i = 0; i < around.length; i++) {
      degree[around[i]!]!--;
      for (let j = i + 1; j < around.length; j++) join(around[i]!, around[j]!);
    }
  }
  return order;
}
