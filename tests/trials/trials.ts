/**
 * Trials: many simulated sessions over all circuits, scored. Split into shards that run side by side; each session depends on its
 * seed alone, so the split changes nothing.
 */
import { appendFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import type { Workbench } from '../../src/diagnosis/workbench.js';
import type { Physics } from '../../src/exercise/physics.js';
import { SolverPhysics } from '../../src/exercise/solver-car.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { Ngspice } from '../oracle/ngspice.js';
import { workedMilliseconds } from './clock.js';
import { Groups } from './groups.js';
import { readKept } from './kept.js';
import { NgspicePhysics } from './ngspice-physics.js';
import type { Score } from './score.js';
import { score } from './score.js';
import type { Kind, Session } from './session.js';
import { runSession } from './session.js';

export const CIRCUITS = join(import.meta.dirname, '../../circuits');

/** Seeds tried for one session until a vehicle shows something to complain about. */
const MOST_DRAWS = 80;
const PROGRESS_EVERY = 10;
/** Seconds of work from which a session is told of. */
const SLOW = 15;

export interface Job {
  readonly circuit: string;
  readonly kind: Kind;
  /** First of the seeds that may be tried. */
  readonly seed: number;
}

export interface Result {
  readonly score?: Score;
  /** Seeds whose vehicle showed nothing. */
  readonly silent: number;
  /** Networks that ngspice solved, and those that it could not. */
  readonly networks?: { readonly solved: number; readonly stoodIn: number };
  /** What to read about a session that missed: seed, truth, the whole record. */
  readonly story?: string;
  /** The program broke down. */
  readonly error?: string;
  readonly job: Job;
}

export function circuitNames(): string[] {
  return readdirSync(CIRCUITS)
    .filter((file) => file.endsWith('.yaml'))
    .map((file) => file.replace(/\.yaml$/, ''))
    .sort();
}

/** A session in one of these takes up to thirty times as long as elsewhere: they have a third as many, after all others. */
const LONG = ['daytime-module', 'can-pair', 'trailer-13'];

/**
 * `sessions` over all circuits in turn, a quarter of them double faults; and a thirtieth more of each special kind.
 * @param seed another one gives other vehicles
 */
export function jobs(sessions: number, circuits: readonly string[], seed = 0): Job[] {
  const list: Job[] = [];
  const add = (count: number, kindOf: (i: number) => Kind, first: number) => {
    for (let i = 0, added = 0; added < count; i++) {
      const circuit = circuits[i % circuits.length]!;
      const round = Math.floor(i / circuits.length);
      if (LONG.includes(circuit) && round % 3 > 0) continue;
      list.push({ circuit, kind: kindOf(round), seed: seed + (first + i) * 100 });
      added += 1;
    }
  };
  add(sessions, (round) => (round % 4 === 3 ? 'double' : 'single'), 0);
  add(Math.ceil(sessions / 30), () => 'misread', 1_000_000);
  add(Math.ceil(sessions / 30), () => 'outside', 2_000_000);
  return list.sort((one, other) => LONG.indexOf(one.circuit) - LONG.indexOf(other.circuit));
}

/** Runs jobs one after another, circuit by circuit. `told` is called after each. */
export async function runJobs(
  list: readonly Job[],
  ngspice: Ngspice | undefined,
  told: (result: Result, done: number) => void,
): Promise<void> {
  let done = 0;
  // The quick ones first.
  for (const kinds of [['single'], ['double'], ['misread', 'outside']]) {
    const pass = (job: Job) => kinds.includes(job.kind);
    for (const circuit of new Set(list.filter(pass).map((job) => job.circuit)))
      await runCircuit(circuit, pass);
  }

  async function runCircuit(circuit: string, pass: (job: Job) => boolean): Promise<void> {
    const loaded = await readCircuit(join(CIRCUITS, `${circuit}.yaml`));
    if ('problems' in loaded) throw new Error(`circuits/${circuit}.yaml does not load`);
    const bench = createWorkbench(loaded.circuit);
    // A complaint is what a load does; without loads nobody would complain.
    if (bench.network.loads.size === 0) return;
    const groups = new Groups(bench, ngspice);
    for (const job of list) {
      if (job.circuit === circuit && pass(job)) told(await runJob(bench, groups, job, ngspice), ++done);
    }
  }
}

async function runJob(
  bench: Workbench,
  groups: Groups,
  job: Job,
  ngspice: Ngspice | undefined,
): Promise<Result> {
  for (let silent = 0; silent < MOST_DRAWS; silent++) {
    const seed = job.seed + silent;
    const reference = ngspice === undefined ? undefined : new NgspicePhysics(ngspice);
    const physics: Physics = reference ?? new SolverPhysics();
    try {
      const session = await runSession(bench, physics, seed, job.kind);
      if (session === undefined) continue;
      const scored = await score(bench, groups, session);
      const networks = reference?.count;
      return {
        job,
        silent,
        score: scored,
        ...(networks && { networks }),
        ...(isMiss(scored) ? { story: storyOf(session, scored) } : {}),
      };
    } catch (error) {
      return {
        job,
        silent,
        error: `${job.circuit} ${job.kind} seed ${seed}: ${String((error as Error).stack)}`,
      };
    }
  }
  return { job, silent: MOST_DRAWS };
}

/** Sessions that the closing note must explain. */
export function isMiss(scored: Score): boolean {
  if (scored.kind === 'outside' || scored.kind === 'misread') return scored.confirmed === 'wrong';
  return !scored.kept || scored.confirmed === 'wrong' || scored.ranges.some(({ holds }) => !holds);
}

function storyOf(session: Session, scored: Score): string {
  const left = session.stopped.diagnosis.suspects.slice(0, 6).map((suspect) => {
    const ranges = suspect.severities.map((range) =>
      range === undefined ? '' : ` ${range.low.toPrecision(3)} to ${range.high.toPrecision(3)} ${range.unit}`,
    );
    return `${suspect.hypothesis}${ranges.join(',')} (${suspect.share.toFixed(2)}${suspect.confirmed ? ', confirmed' : ''})`;
  });
  return [
    `${scored.circuit} ${scored.kind} seed ${scored.seed}: ${scored.truth}`,
    ...(session.fell === undefined ? [] : [`  ${session.fell}`]),
    `  kept ${scored.kept}, confirmed ${scored.confirmed}, ranges ${JSON.stringify(scored.ranges)}`,
    `  left: ${left.join('; ')}`,
    ...session.mechanic.lines,
  ].join('\n');
}

export const SHARDS = 2;

/**
 * One of the shards: runs its jobs, writes a line a result into `folder`, tells the progress on stderr. What the folder has already is
 * not done again.
 */
export async function runShard(
  shard: number,
  sessions: number,
  folder: string,
  reference: boolean,
): Promise<Result[]> {
  // Each circuit in turn to both shards, so that both get as much to do.
  const circuits = circuitNames();
  const turn = ({ seed }: Job) => ((seed / 100) % circuits.length) + Math.floor(seed / 100 / circuits.length);
  const file = join(folder, `shard-${shard}.jsonl`);
  const results = readKept<Result>(file);
  const nameOf = ({ circuit, kind, seed }: Job) => `${circuit} ${kind} ${seed}`;
  const known = new Set(results.map(({ job }) => nameOf(job)));
  const mine = jobs(sessions, circuits).filter(
    (job) => turn(job) % SHARDS === shard && !known.has(nameOf(job)),
  );
  const started = workedMilliseconds();
  await runJobs(mine, reference ? await Ngspice.start() : undefined, (result, done) => {
    results.push(result);
    const seconds = (result.score?.milliseconds ?? 0) / 1000;
    if (seconds > SLOW)
      process.stderr.write(
        `slow: ${result.job.circuit} ${result.job.kind} ${result.score!.seed}, ${JSON.stringify(result.score!.spent)}\n`,
      );
    if (result.error !== undefined) process.stderr.write(`broke down: ${result.error}\n`);
    if (result.story !== undefined)
      process.stderr.write(`missed: ${result.story.split('\n').slice(0, 3).join(' ')}\n`);
    appendFileSync(file, `${JSON.stringify(result)}\n`);
    if (done % PROGRESS_EVERY !== 0 && done !== mine.length) return;
    const each = (workedMilliseconds() - started) / 1000 / done;
    process.stderr.write(
      `trials ${shard + 1}/${SHARDS}: ${done} of ${mine.length}, ${result.job.circuit}, ${each.toFixed(2)} s of work a session\n`,
    );
  });
  return results;
}
