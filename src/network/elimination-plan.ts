/**
 * In which order the nodes of a network are eliminated, and which conductances each step touches.
 *
 * Worked out once per topology; the numbers change per variant, the plan does not. Nodes of low degree go first
 * (minimum-degree ordering), so that a loom, which is nearly a tree, stays sparse. The tail (ends of filaments, motors and
 * diodes, then body metal) goes last, so that only the tail is repeated while those settle.
 */
import { BODY } from './network.js';

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
  const neighbours = Array.from({ length: nodeCount }, () => new Set<number>());
  const join = (a: number, b: number) => {
    if (a === b) return;
    neighbours[a]!.add(b);
    neighbours[b]!.add(a);
  };
  for (let i = 0; i < edges.length; i += 2) join(edges[i]!, edges[i + 1]!);
  for (let node = 0; node < nodeCount; node++) join(node, BODY);

  // 0 = head, 1 = tail, 2 = body, 3 = reference.
  const rank = new Uint8Array(nodeCount);
  for (const node of tail) rank[node] = 1;
  rank[BODY] = 2;
  rank[0] = 3;
  const inTail = (node: number) => rank[node] !== 0;

  const pairs = new Map<number, number>();
  const key = (a: number, b: number) => (a < b ? a * nodeCount + b : b * nodeCount + a);
  const headPairs: number[] = [];
  const tailPairs: number[] = [];
  const note = (a: number, b: number) => {
    const name = key(a, b);
    if (pairs.has(name)) return;
    pairs.set(name, 0);
    (inTail(a) && inTail(b) ? tailPairs : headPairs).push(name);
  };
  for (let node = 0; node < nodeCount; node++) for (const other of neighbours[node]!) note(node, other);

  const order: { node: number; around: number[] }[] = [];
  const waiting = Array.from({ length: nodeCount - 1 }, (_, i) => i + 1);
  let headSteps = 0;
  while (waiting.length > 0) {
    let best = 0;
    for (let i = 1; i < waiting.length; i++) {
      const [node, other] = [waiting[i]!, waiting[best]!];
      const closer = rank[node]! - rank[other]! || neighbours[node]!.size - neighbours[other]!.size;
      if (closer < 0) best = i;
    }
    const node = waiting[best]!;
    waiting.splice(best, 1);
    const around = [...neighbours[node]!].sort((a, b) => a - b);
    order.push({ node, around });
    if (!inTail(node)) headSteps++;
    around.forEach((a, i) => {
      neighbours[a]!.delete(node);
      for (const b of around.slice(i + 1)) {
        join(a, b);
        note(a, b);
      }
    });
  }

  const names = [...headPairs, ...tailPairs];
  const ends = new Int32Array(names.length * 2);
  names.forEach((name, slot) => {
    pairs.set(name, slot);
    ends[2 * slot] = Math.floor(name / nodeCount);
    ends[2 * slot + 1] = name % nodeCount;
  });
  const slot = (a: number, b: number) => pairs.get(key(a, b))!;

  const steps: number[] = [];
  const starts = [0];
  for (const { node, around } of order) {
    steps.push(node, around.length);
    for (const other of around) steps.push(slot(node, other), other);
    around.forEach((a, i) => {
      for (const b of around.slice(i + 1)) steps.push(slot(a, b));
    });
    starts.push(steps.length);
  }
  return {
    nodeCount,
    slotCount: names.length,
    firstTailSlot: headPairs.length,
    ends,
    steps: Int32Array.from(steps),
    starts: Int32Array.from(starts),
    headSteps,
    tail: Int32Array.from(order.slice(headSteps), (step) => step.node),
    slot,
  };
}
