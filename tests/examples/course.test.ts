/** The starter course: every file loads, and its vehicle gives the complaint it tells. How the planner fares: tests/trials/course.long.ts. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { printDiagnostics } from '../../src/circuit/print-diagnostic.js';
import { readExerciseFile } from '../../src/files/exercise-file.js';

const FOLDER = 'examples/course/';
const FILES = readdirSync(FOLDER).filter((name) => name.endsWith('.yaml'));

test('when the course is counted then it has twelve exercises, each on the instructor page', () => {
  const page = readFileSync(`${FOLDER}README.md`, 'utf8');
  expect(FILES).toHaveLength(12);
  for (const file of FILES) expect(page).toContain(file.replace('.yaml', ''));
});

test.each(FILES)('when %s is read then its vehicle gives the complaint', async (file) => {
  const loaded = await readExerciseFile(FOLDER + file);
  const said = 'problems' in loaded ? printDiagnostics(loaded.source, file, loaded.problems).join('\n') : '';
  expect(said).toBe('');
});
