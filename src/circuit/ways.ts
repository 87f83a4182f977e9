/** Ways through a graph of nets: what can be reached, and whether current can flow through a load. */

export interface Link {
  readonly a: number;
  readonly b: number;
}

function neighbours(count: number, links: readonly Link[]): number[][] {
  const near: number[][] = Array.from({ length: count }, () => []);
  for (const { a, b } of links) {
    if (a === b) continue;
    near[a]!.push(b);
    near[b]!.push(a);
  }
  return near;
}

/** Which nets can be reached from one of them: 1 = yes. */
export function reach(count: number, links: readonly Link[], from: number): Uint8Array {
  const near = neighbours(count, links);
  const seen = new Uint8Array(count);
  const queue = [from];
  seen[from] = 1;
  for (const net of queue) {
    for (const next of near[net]!) {
      if (seen[next]) continue;
      seen[next] = 1;
      queue.push(next);
    }
  }
  return seen;
}

/**
 * Does current flow through a load between nets a and b? Yes when two ways lead from its ends to the two battery posts
 * without sharing a net: two augmenting paths in the graph with every net split in an in and an out half (Menger).
 */
export function carries(
  count: number,
  links: readonly Link[],
  a: number,
  b: number,
  plus: number,
  minus: number,
): boolean {
  if (a === b || plus === minus) return false;
  const near = neighbours(count, links);
  const flow = new Map<number, Set<number>>(); // out half of a net → in halves it sends to
  const into = new Int32Array(count).fill(-2); // −2 unused, −1 straight from the load, else the net before
  const sunk = new Set<number>();
  for (let round = 0; round < 2; round++) {
    // Half 2n = arriving at net n, 2n+1 = leaving it.
    const came = new Int32Array(2 * count).fill(-1);
    const queue: number[] = [];
    for (const end of [a, b]) {
      if (into[end] === -1) continue;
      came[2 * end] = -2;
      queue.push(2 * end);
    }
    let last = -1;
    for (const half of queue) {
      const net = half >> 1;
      const visit = (next: number) => {
        if (came[next] !== -1) return;
        came[next] = half;
        queue.push(next);
      };
      if (half & 1) {
        if ((net === plus || net === minus) && !sunk.has(net)) {
          last = half;
          break;
        }
        for (const next of near[net]!) if (!flow.get(net)?.has(next)) visit(2 * next);
        if (into[net] !== -2) visit(2 * net); // undo the way through this net
      } else {
        if (into[net] === -2) visit(2 * net + 1);
        else if (into[net]! >= 0) visit(2 * into[net]! + 1); // undo the step that led here
      }
    }
    if (last < 0) return false;
    sunk.add(last >> 1);
    const path: number[] = [];
    for (let half = last; half >= 0; half = came[half]!) path.unshift(half);
    apply(path, into, flow);
  }
  return true;
}

function apply(path: readonly number[], into: Int32Array, flow: Map<number, Set<number>>): void {
  const steps: [number, number][] = [];
  for (let at = 1; at < path.length; at++) steps.push([path[at - 1]!, path[at]!]);
  // Take back first, then lay, so that a net given up and taken again ends up right.
  for (const [from, to] of steps) {
    if (!(from & 1) && to & 1 && from >> 1 !== to >> 1) {
      flow.get(to >> 1)?.delete(from >> 1);
      into[from >> 1] = -2;
    }
  }
  if (path.length > 0) into[path[0]! >> 1] = -1;
  for (const [from, to] of steps) {
    if (from & 1 && !(to & 1) && from >> 1 !== to >> 1) {
      if (!flow.has(from >> 1)) flow.set(from >> 1, new Set());
      flow.get(from >> 1)!.add(to >> 1);
      into[to >> 1] = from >> 1;
    }
  }
}
