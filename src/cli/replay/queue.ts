/** Tasks still to do, by circuit: a thread stays with a circuit that it has made ready as long as there is something to do on it. */
import type { Task } from './collect.js';

export class Queue {
  readonly #groups = new Map<string, number[]>();
  /** Circuits that some thread has begun. */
  readonly #begun = new Set<string>();

  constructor(tasks: readonly Pick<Task, 'circuit'>[]) {
    tasks.forEach(({ circuit }, index) => {
      const group = this.#groups.get(circuit);
      if (group === undefined) this.#groups.set(circuit, [index]);
      else group.push(index);
    });
  }

  get left(): number {
    return [...this.#groups.values()].reduce((sum, group) => sum + group.length, 0);
  }

  /** Index of the next task for a thread that was at this circuit; undefined when nothing is left. */
  take(circuit: string | undefined): number | undefined {
    const open = [...this.#groups].filter(([, group]) => group.length > 0);
    const [name, group] =
      open.find(([name]) => name === circuit) ??
      open.find(([name]) => !this.#begun.has(name)) ??
      longest(open) ??
      [];
    if (name === undefined || group === undefined) return undefined;
    this.#begun.add(name);
    return group.shift();
  }
}

function longest(groups: readonly [string, number[]][]): [string, number[]] | undefined {
  return [...groups].sort(([, a], [, b]) => b.length - a.length)[0];
}
