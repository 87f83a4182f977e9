import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { trial } from './first-law.js';

/** Sessions on each circuit. */
const EACH = 250;

test.each([1, 2])('random true readings never rule out the %d faults that are there', async (count) => {
  let kept = 0;
  let sessions = 0;
  const stories: string[] = [];
  for (const file of readdirSync('circuits')) {
    const loaded = await readCircuit(`circuits/${file}`);
    if ('problems' in loaded) throw new Error(`${file} does not load`);
    const bench = createWorkbench(loaded.circuit);
    const trials = await Promise.all(Array.from({ length: EACH }, (_, i) => trial(bench, 50_000 + i, count)));
    const good = trials.filter((one) => one.kept).length;
    const findings = trials.reduce((sum, one) => sum + one.findings, 0);
    stories.push(...trials.filter((one) => !one.kept).map((one) => `${file} ${one.story}`));
    console.log(`${file.padEnd(24)} true fault kept ${good} of ${EACH}, ${findings} findings`);
    kept += good;
    sessions += EACH;
  }
  console.log(`true fault kept ${kept} of ${sessions}`);
  expect(stories.join('\n\n')).toBe('');
});
