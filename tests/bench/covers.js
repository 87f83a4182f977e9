/**
 * Covers: the minimum cover beside HiGHS (an open-source solver, here as WebAssembly) on the same problems in one run,
 * and all irredundant covers of a larger family. HiGHS reads its problem as LP text within its time, and the first rows
 * include the warm-up of both. Nothing is asserted about times.
 */
import loadHighs from 'highs';
import { irredundantCovers, minimumCover } from '../../dist/diagnosis/covers/covers.js';

const PROBLEMS = 10;

/** @param {(line: string) => void} print */
export async function coversBench(print = console.log) {
  const highs = await loadHighs();
  print(`Minimum cover, 40 elements x 200 sets, ${PROBLEMS} problems a row, median (worst) ms`);
  for (const { density, unit } of [
    { density: 0.05, unit: false },
    { density: 0.05, unit: true },
    { density: 0.1, unit: false },
    { density: 0.1, unit: true },
  ]) {
    const own = [];
    const reference = [];
    for (let number = 0; number < PROBLEMS; number++) {
      const random = seeded(number);
      const sets = coverable(random, 40, 200, density);
      const costs = sets.map(() => (unit ? 1 : 1 + Math.floor(100 * random())));
      const programme = coverProgramme(40, sets, costs);
      const mine = timed(() => minimumCover(40, sets, costs).cost);
      const theirs = timed(() => highs.solve(programme, { mip_rel_gap: 0, mip_abs_gap: 0 }).ObjectiveValue);
      if (Math.abs(mine.result - theirs.result) > 1e-6) {
        throw new Error(`Problem ${number}: ${mine.result} here, ${theirs.result} in HiGHS`);
      }
      own.push(mine.ms);
      reference.push(theirs.ms);
    }
    const ratio = sum(reference) / sum(own);
    print(
      `  density ${density} ${unit ? 'all costs 1' : 'costs 1-100'}: here ${shown(own)}, HiGHS ${shown(reference)}, ` +
        `total HiGHS / here ${ratio.toFixed(1)}`,
    );
  }

  print('All irredundant covers, 60 elements x 400 sets');
  for (const { density, size } of [
    { density: 0.1, size: 3 },
    { density: 0.2, size: 4 },
    { density: 0.3, size: 4 },
  ]) {
    const sets = planted(seeded(7), 60, 400, density);
    const { ms, result } = timed(() => irredundantCovers(60, sets, size));
    print(`  density ${density}, up to ${size} sets: ${result.covers.length} covers in ${ms.toFixed(1)} ms`);
  }
}

function timed(run) {
  const start = performance.now();
  const result = run();
  return { result, ms: performance.now() - start };
}

function shown(times) {
  const rising = [...times].sort((a, b) => a - b);
  return `${rising[rising.length >> 1].toFixed(1)} (${rising.at(-1).toFixed(1)})`;
}

function sum(values) {
  return values.reduce((total, value) => total + value, 0);
}

/** mulberry32, a public-domain generator. */
function seeded(seed) {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

function coverable(random, elements, count, density) {
  const sets = Array.from({ length: count }, () => []);
  for (let e = 0; e < elements; e++) {
    const before = sum(sets.map((set) => set.length));
    for (const set of sets) if (random() < density) set.push(e);
    if (sum(sets.map((set) => set.length)) === before) sets[Math.floor(random() * count)].push(e);
  }
  return sets;
}

/** As a real case: three faults explain everything between them, the rest overlap by chance. */
function planted(random, elements, count, density) {
  const sets = coverable(random, elements, count, density);
  for (let e = 0; e < elements; e++) {
    const truth = sets[e % 3];
    if (!truth.includes(e)) truth.push(e);
  }
  return sets;
}

function coverProgramme(elements, sets, costs) {
  const rows = Array.from({ length: elements }, (_, e) => {
    const terms = sets.flatMap((set, s) => (set.includes(e) ? [`x${s}`] : []));
    return ` r${e}: ${terms.join('\n + ')} >= 1`;
  });
  const cost = costs.map((c, s) => `${c} x${s}`).join('\n + ');
  return [
    'Minimize',
    ` cost: ${cost}`,
    'Subject To',
    ...rows,
    'Binary',
    ...sets.map((_, s) => ` x${s}`),
    'End',
    '',
  ].join('\n');
}
