/**
 * Many sessions, one after the other or shared out among worker threads. Which thread did what never shows: results come in the
 * order of the tasks, and each is what it would be alone.
 */
import { existsSync } from 'node:fs';
import { Worker } from 'node:worker_threads';
import type { Replay } from '../../report/replay-data.js';
import { FAILED, replayFile } from '../replay-session.js';
import type { ReplayOptions } from './replayed.js';
import { Benches } from './benches.js';
import type { Task } from './collect.js';
import { Queue } from './queue.js';

/** What a worker is sent and sends back. */
export interface Sent {
  readonly index: number;
  readonly task: Task;
}
export interface Answer {
  readonly index: number;
  readonly replay: Replay;
}

/** Absent where the program runs from its sources: then one after the other. */
const WORKER = new URL('./worker.js', import.meta.url);

/**
 * Yields one result for each task, in their order.
 * @param done called for each as soon as it is there, in any order
 */
export async function* replayAll(
  tasks: readonly Task[],
  options: ReplayOptions,
  jobs: number,
  done: (replay: Replay) => void = () => undefined,
): AsyncGenerator<Replay> {
  if (jobs > 1 && existsSync(WORKER)) return yield* inThreads(tasks, options, jobs, done);
  const benches = new Benches();
  const queue = new Queue(tasks);
  const results = new Map<number, Replay>();
  let next = 0;
  let circuit: string | undefined;
  for (let index = queue.take(circuit); index !== undefined; index = queue.take(circuit)) {
    const task = tasks[index]!;
    circuit = task.circuit;
    const replay = await replayTask(task, options, benches);
    results.set(index, replay);
    done(replay);
    for (; results.has(next); next++) {
      yield results.get(next)!;
      results.delete(next);
    }
  }
}

/** A mistake in the program on one session must not hide what became of the others. */
export async function replayTask(task: Task, options: ReplayOptions, benches: Benches): Promise<Replay> {
  try {
    return await replayFile(options, task.path, task.shown, benches);
  } catch (error) {
    return brokenOff(task, error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

function brokenOff({ shown }: Task, why: string): Replay {
  return {
    ...FAILED,
    file: shown,
    title: shown,
    lines: [`this is a mistake in the program: ${why}`, 'Please report it.'],
  };
}

async function* inThreads(
  tasks: readonly Task[],
  options: ReplayOptions,
  jobs: number,
  done: (replay: Replay) => void,
): AsyncGenerator<Replay> {
  const queue = new Queue(tasks);
  const results = new Map<number, Replay>();
  const running = new Set<Worker>();
  let wake = (): void => undefined;
  let stopped = false;

  const begin = (): void => {
    const worker = new Worker(WORKER, { workerData: options });
    running.add(worker);
    let now: number | undefined;
    let circuit: string | undefined;
    const next = (): void => {
      now = queue.take(circuit);
      if (now === undefined) return void worker.terminate();
      const task = tasks[now]!;
      circuit = task.circuit;
      worker.postMessage({ index: now, task } satisfies Sent);
    };
    const give = (index: number, replay: Replay): void => {
      results.set(index, replay);
      done(replay);
      wake();
    };
    worker.on('message', ({ index, replay }: Answer) => {
      give(index, replay);
      next();
    });
    // Out of memory, mostly: the session it was at is named, the others go on in a fresh thread.
    worker.on('error', (error) => {
      running.delete(worker);
      if (now !== undefined) give(now, brokenOff(tasks[now]!, error.message));
      if (!stopped && queue.left > 0) begin();
    });
    next();
  };

  for (let n = 0; n < Math.min(jobs, tasks.length); n++) begin();
  try {
    for (let index = 0; index < tasks.length; index++) {
      while (!results.has(index)) await new Promise<void>((resolve) => (wake = resolve));
      yield results.get(index)!;
      results.delete(index);
    }
  } finally {
    stopped = true;
    await Promise.all([...running].map((worker) => worker.terminate()));
  }
}
