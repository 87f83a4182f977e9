/**
 * Circuits made ready for reasoning, kept from one session to the next: most of the time of a replay goes into what depends on the
 * circuit alone. What is concluded does not depend on what was judged before.
 */
import { getHeapStatistics } from 'node:v8';
import type { Circuit } from '../../circuit/circuit.js';
import { createWorkbench, type Workbench } from '../../diagnosis/workbench.js';

/** Circuits kept at a time: sessions come circuit by circuit. */
const MOST_KEPT = 3;
/** Above this part of the heap that may be used, all are let go. */
const FULL = 0.5;

export class Benches {
  readonly #kept = new Map<string, Workbench>();

  /** @param hash names the text that the circuit was read from */
  of(circuit: Circuit, hash: string): Workbench {
    const { used_heap_size: used, heap_size_limit: limit } = getHeapStatistics();
    if (used > limit * FULL) this.#kept.clear();
    const key = `${hash} ${JSON.stringify(circuit.costs)}`;
    const bench = this.#kept.get(key) ?? createWorkbench(circuit);
    this.#kept.delete(key);
    this.#kept.set(key, bench);
    if (this.#kept.size > MOST_KEPT) this.#kept.delete(this.#kept.keys().next().value!);
    return bench;
  }
}
