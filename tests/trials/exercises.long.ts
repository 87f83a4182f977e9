/**
 * Random exercises over all circuits by five scripted students: difficulty per seed, marks, and the share of exercises in which the
 * marks rank them in the right order. Part of `npm run trials`; `KNOWNGOOD_EXERCISES=1000` for more, `KNOWNGOOD_FIRST_SEED` for others.
 */
import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { DIFFICULTIES } from '../../src/exercise/draw-exercise.js';
import { inOrder, NAMES, rank, type Ranked } from '../exercise/ranking.js';

const COUNT = Number(process.env['KNOWNGOOD_EXERCISES'] ?? 65);
const FIRST = Number(process.env['KNOWNGOOD_FIRST_SEED'] ?? 1);
/** Share of exercises in which the marks must stand in order. */
const ENOUGH = 0.95;

function row(name: string, list: readonly Ranked[]): string {
  const mean = (of: (one: Ranked) => number) => list.reduce((sum, one) => sum + of(one), 0) / list.length;
  const marks = NAMES.map((_, i) =>
    mean((one) => one.marks[i]!)
      .toFixed(1)
      .padStart(17),
  );
  const ordered = list.filter((one) => inOrder(one.marks)).length;
  return `${name.padEnd(18)} ${String(list.length).padStart(5)} ${marks.join('')}   in order ${ordered}`;
}

test('when five students do random exercises then the marks rank them', async () => {
  const circuits = readdirSync('circuits').map((file) => file.replace('.yaml', ''));
  const ranked: Ranked[] = [];
  const said: string[] = [];
  for (let i = 0; i < COUNT; i++) {
    const circuit = circuits[i % circuits.length]!;
    const seed = FIRST + Math.floor(i / circuits.length);
    const difficulty = DIFFICULTIES[(seed + i) % DIFFICULTIES.length]!;
    const one = await rank(circuit, seed, difficulty);
    if (one === undefined) continue;
    ranked.push(one);
    const { bits, repairs, tests, minutes, cured } = one.road;
    const line = `${one.exercise.padEnd(28)} ${bits.toFixed(1).padStart(5)} bit ${String(repairs).padStart(4)} repairs ${String(tests).padStart(3)} tests ${minutes.toFixed(0).padStart(4)} min ${cured ? '     ' : 'open '} ${one.marks.map((mark) => mark.toFixed(1).padStart(6)).join('')}${inOrder(one.marks) ? '' : '  *'}`;
    process.stderr.write(`${line}\n`);
    said.push(line);
    if (!inOrder(one.marks)) process.stderr.write(`${one.story}\n`);
  }
  console.log(`\n${''.padEnd(24)} ${NAMES.map((name) => name.padStart(17)).join('')}`);
  for (const difficulty of DIFFICULTIES) {
    const own = ranked.filter((one) => one.difficulty === difficulty);
    if (own.length > 0) console.log(row(`difficulty ${difficulty}`, own));
  }
  for (const circuit of circuits) {
    const own = ranked.filter((one) => one.exercise.startsWith(`${circuit}-`));
    if (own.length > 0) console.log(row(circuit, own));
  }
  console.log(row('all', ranked));
  // The same seed again, to the last digit.
  const [first] = ranked;
  const again = await rank(circuits[0]!, FIRST, DIFFICULTIES[FIRST % DIFFICULTIES.length]!);
  expect(again?.story).toBe(first?.story);
  const ordered = ranked.filter((one) => inOrder(one.marks)).length;
  expect(ordered / ranked.length).toBeGreaterThanOrEqual(ENOUGH);
});
