/** The starter course as the program's planner goes through it: the minutes of the instructor's page. Part of `npm run trials`. */
import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readExerciseFile } from '../../src/files/exercise-file.js';
import { markOf } from '../../src/exercise/mark.js';
import { planned } from '../../src/exercise/planner-road.js';
import { Run } from '../../src/exercise/run.js';

const FOLDER = 'examples/course/';

test('when the planner goes through the course then it cures every vehicle inside the budget', async () => {
  const over: string[] = [];
  for (const file of readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'))) {
    const loaded = await readExerciseFile(FOLDER + file);
    if ('problems' in loaded) throw new Error(`${file}: ${loaded.problems[0]!.message}`);
    const { exercise, bench } = loaded;
    const run = await Run.begin(bench, exercise);
    const road = await planned(run);
    const { minutes, money } = exercise.budget;
    const mark = markOf(run, road);
    console.log(
      `${file.padEnd(30)} ${road.minutes.toFixed(0).padStart(4)} of ${String(minutes).padStart(3)} min, ${road.money} of ${money}, ${road.tests} tests, ${road.repairs} repairs and ${road.bits.toFixed(1)} bit at the start, ${mark.total} marks`,
    );
    if (!road.cured || road.minutes > minutes! || road.money > money!) over.push(file);
  }
  expect(over).toEqual([]);
});
