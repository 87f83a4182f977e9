/**
 * Random exercises over all circuits by five scripted students: difficulty per seed, marks, and the share of exercises in which the
 * marks rank them in the right order. Halves run side by side; each exercise depends on its seed alone, so the split changes nothing.
 */
import { createHash } from 'node:crypto';
import { appendFileSync } from 'node:fs';
import { join } from 'node:path';
import { DIFFICULTIES, type Difficulty } from '../../src/exercise/draw-exercise.js';
import { inOrder, NAMES, rank, type Ranked } from '../exercise/ranking.js';
import { readKept } from './kept.js';
import { circuitNames, SHARDS } from './trials.js';

const COUNT = Number(process.env['KNOWNGOOD_EXERCISES'] ?? 62);
const FIRST = Number(process.env['KNOWNGOOD_FIRST_SEED'] ?? 1);
/** Of so many exercises one is done a second time, to be the same to the last byte. */
const TWICE = 25;

interface Job {
  readonly circuit: string;
  readonly seed: number;
  readonly difficulty: Difficulty;
}

/** One exercise of the run; `ranked` is left out where the circuit has no load to complain of. */
export interface Done {
  readonly i: number;
  readonly ranked?: Ranked;
}

function jobAt(i: number): Job {
  const circuits = circuitNames();
  const seed = FIRST + Math.floor(i / circuits.length);
  return {
    circuit: circuits[i % circuits.length]!,
    seed,
    difficulty: DIFFICULTIES[(seed + i) % DIFFICULTIES.length]!,
  };
}

/** One of the halves; what the folder has of it already is not done again. Tells each exercise on stderr. */
export async function runExercises(shard: number, folder: string): Promise<Done[]> {
  const file = join(folder, `exercises-${shard}.jsonl`);
  const done = readKept<Done>(file);
  const known = new Set(done.map(({ i }) => i));
  // Circuit by circuit: what has been solved for one serves its next exercise, and is let go with it.
  const circuits = circuitNames().length;
  const inTurn = Array.from({ length: COUNT }, (_, i) => i)
    .filter((i) => (i % circuits) % SHARDS === shard && !known.has(i))
    .sort((a, b) => (a % circuits) - (b % circuits) || a - b);
  for (const i of inTurn) {
    const { circuit, seed, difficulty } = jobAt(i);
    const ranked = await rank(circuit, seed, difficulty);
    const one: Done = { i, ...(ranked && { ranked }) };
    done.push(one);
    appendFileSync(file, `${JSON.stringify(one)}\n`);
    if (ranked === undefined) continue;
    process.stderr.write(`${lineOf(ranked)}\n`);
    if (!inOrder(ranked.marks)) process.stderr.write(`${ranked.story}\n`);
  }
  return done;
}

/** Numbers of the exercises that came out otherwise when they were done again. */
export async function otherwise(done: readonly Done[]): Promise<number[]> {
  const other: number[] = [];
  for (const { i, ranked } of done.filter((_, at) => at % TWICE === 0)) {
    const { circuit, seed, difficulty } = jobAt(i);
    if ((await rank(circuit, seed, difficulty))?.story !== ranked?.story) other.push(i);
  }
  return other;
}

function lineOf({ exercise, road, marks }: Ranked): string {
  const { bits, repairs, tests, minutes, cured } = road;
  const shown = marks.map((mark) => mark.toFixed(1).padStart(6)).join('');
  return `${exercise.padEnd(28)} ${bits.toFixed(1).padStart(5)} bit ${String(repairs).padStart(4)} repairs ${String(tests).padStart(3)} tests ${minutes.toFixed(0).padStart(4)} min ${cured ? '     ' : 'open '} ${shown}${inOrder(marks) ? '' : '  *'}`;
}

/** Mean marks by difficulty and by circuit, how many are in order, and a hash over everything that cost a mark. */
export function exerciseTables(done: readonly Done[]): string {
  const inTurn = [...done].sort((a, b) => a.i - b.i);
  const ranked = inTurn.flatMap((one) => one.ranked ?? []);
  const rows = [`${''.padEnd(24)} ${NAMES.map((name) => name.padStart(17)).join('')}`];
  const add = (name: string, list: readonly Ranked[]) => {
    if (list.length > 0) rows.push(row(name, list));
  };
  for (const difficulty of DIFFICULTIES)
    add(
      `difficulty ${difficulty}`,
      ranked.filter((one) => one.difficulty === difficulty),
    );
  for (const circuit of circuitNames())
    add(
      circuit,
      ranked.filter(({ exercise }) => exercise.replace(/-\d+-\d+$/, '') === circuit),
    );
  add('all', ranked);
  const bytes = createHash('sha256').update(JSON.stringify(inTurn)).digest('hex');
  const uncured = ranked.filter(({ road }) => !road.cured).length;
  rows.push(`${ranked.length} exercises, ${uncured} not cured by the planner; sha256 ${bytes}`);
  return [...ranked.map(lineOf), '', ...rows].join('\n');
}

function row(name: string, list: readonly Ranked[]): string {
  const mean = (i: number) => list.reduce((sum, { marks }) => sum + marks[i]!, 0) / list.length;
  const marks = NAMES.map((_, i) => mean(i).toFixed(1).padStart(17)).join('');
  const ordered = list.filter((one) => inOrder(one.marks)).length;
  const share = `${((100 * ordered) / list.length).toFixed(1)} %`;
  return `${name.padEnd(18)} ${String(list.length).padStart(5)} ${marks}   in order ${ordered} (${share})`;
}
