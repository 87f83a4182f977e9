/**
 * Replay of many sessions with one thread and with two, one after the other on the same files:
 *
 *     node tests/bench/replay/run.js [sessions] [seed]
 *
 * Sessions a second by the clock and by processor time, and the largest memory the process had. Also whether both said the same.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writeSessions } from './sessions.js';

const CHILD = fileURLToPath(new URL('./child.js', import.meta.url));
const count = Number(process.argv[2] ?? 5000);
const seed = Number(process.argv[3] ?? 1);

const folder = await mkdtemp(join(tmpdir(), 'knowngood-replay-'));
try {
  await writeSessions(folder, count, seed);
  const runs = [];
  for (const jobs of [1, 2]) runs.push(await measure(jobs));
  const same = runs[0].digest === runs[1].digest;
  console.log(
    `Replay of ${count} sessions, seed ${seed}: ${runs[0].last}; both say the same: ${same ? 'yes' : 'NO'}`,
  );
  for (const { jobs, seconds, cpu, peak } of runs)
    console.log(
      `  ${jobs} thread${jobs > 1 ? 's' : ' '}  ${(count / seconds).toFixed(1)} sessions/s by the clock (${seconds.toFixed(0)} s), ` +
        `${(count / cpu).toFixed(1)} per processor second (${cpu.toFixed(0)} s), peak ${peak.toFixed(0)} MiB`,
    );
  process.exitCode = same ? 0 : 1;
} finally {
  await rm(folder, { recursive: true, force: true });
}

function measure(jobs) {
  return new Promise((resolve, reject) => {
    const began = performance.now();
    const child = spawn(process.execPath, [CHILD, 'replay', '--jobs', String(jobs), folder], {
      stdio: ['ignore', 'pipe', 'inherit', 'pipe'],
    });
    const hash = createHash('sha256');
    let tail = '';
    let figures = '';
    child.stdout.on('data', (piece) => {
      hash.update(piece);
      tail = (tail + piece).slice(-200);
    });
    child.stdio[3].on('data', (piece) => (figures += piece));
    child.on('error', reject);
    child.on('close', () => {
      const seconds = (performance.now() - began) / 1000;
      resolve({
        jobs,
        seconds,
        ...JSON.parse(figures),
        digest: hash.digest('hex'),
        last: tail.trim().split('\n').at(-1),
      });
    });
  });
}
