/** One thread of a replay: sessions come in, results go out. It says nothing and writes nowhere else. */
import { parentPort, workerData } from 'node:worker_threads';
import type { ReplayOptions } from './replayed.js';
import { Benches } from './benches.js';
import { replayTask, type Answer, type Sent } from './replay-all.js';

const options = workerData as ReplayOptions;
const benches = new Benches();

parentPort?.on('message', ({ index, task }: Sent) => {
  void replayTask(task, options, benches).then((replay) =>
    parentPort!.postMessage({ index, replay } satisfies Answer),
  );
});
