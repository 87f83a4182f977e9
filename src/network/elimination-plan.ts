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
 * Plans the elimination of a network whose every node also has an edge to body metal.
 * @param edges pairs of nodes, flat: a0, b0, a1, b1 …; a pair of equal nodes is ignored
 * @param tail nodes to keep for the end
 */
export function planElimination(
  nodeCount: number,
  edges: readonly number[],
  tail: Iterable<number>,
): EliminationPlan {
  // 0 = head, 1 = tail, 2 = body, 3 = reference.
  const rank = new Uint8Array(nodeCount);
  for (const node of tail) rank[node] = 1;
  rank[BODY] = 2;
  rank[BATTERY_NEGATIVE] = 3;

  // Slot of a pair is first noted as its number among head pairs or tail pairs, plus one; tail pairs are moved up afterwards.
  const noted = new Int32Array(nodeCount * nodeCount);
  const neighbours = Array.from({ length: nodeCount }, (): number[] => []);
  const degree = new Int32Array(nodeCount);
  const headPairs: number[] = [];
  const tailPairs: number[] = [];
  const join = (a: number, b: number) => {
    if (a === b || noted[a * nodeCount + b] !== 0) return;
    const pairs = rank[a] !== 0 && rank[b] !== 0 ? tailPairs : headPairs;
    pairs.push(Math.min(a, b), Math.max(a, b));
    noted[a * nodeCount + b] = noted[b * nodeCount + a] = pairs.length / 2;
    neighbours[a]!.push(b);
    neighbours[b]!.push(a);
    degree[a]!++;
    degree[b]!++;
  };
  for (let i = 0; i < edges.length; i += 2) join(edges[i]!, edges[i + 1]!);
  for (let node = 0; node < nodeCount; node++) join(node, BODY);

  const order: { node: number; around: number[] }[] = [];
  const gone = new Uint8Array(nodeCount);
  let headSteps = 0;
  for (let step = 1; step < nodeCount; step++) {
    let node = -1;
    let least = Infinity;
    for (let i = 1; i < nodeCount; i++) {
      const worth = gone[i] !== 0 ? Infinity : rank[i]! * nodeCount + degree[i]!;
      if (worth >= least) continue;
      least = worth;
      node = i;
    }
    gone[node] = 1;
    const around = neighbours[node]!.filter((other) => gone[other] === 0);
    order.push({ node, around });
    if (rank[node] === 0) headSteps++;
    for (let i = 0; i < around.length; i++) {
      degree[around[i]!]!--;
      for (let j = i + 1; j < around.length; j++) join(around[i]!, around[j]!);
    }
  }

  const firstTailSlot = headPairs.length / 2;
  const slot = (a: number, b: number) =>
    noted[a * nodeCount + b]! - 1 + (rank[a] !== 0 && rank[b] !== 0 ? firstTailSlot : 0);
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
    slotCount: firstTailSlot + tailPairs.length / 2,
    firstTailSlot,
    ends: Int32Array.from([...headPairs, ...tailPairs]),
    steps: Int32Array.from(steps),
    starts: Int32Array.from(starts),
    headSteps,
    tail: Int32Array.from(order.slice(headSteps), (step) => step.node),
    slot,
  };
}
