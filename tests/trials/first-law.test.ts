import { readdirSync } from 'node:fs';
import { expect, test } from 'vitest';
import { createWorkbench } from '../../src/diagnosis/workbench.js';
import { readCircuit } from '../../src/files/circuit-file.js';
import { trial } from './first-law.js';

const EACH = 15;

test.each(readdirSync('circuits'))(
  'when readings of %s are true then the true fault is kept',
  async (file) => {
    const loaded = await readCircuit(`circuits/${file}`);
    if ('problems' in loaded) throw new Error(`${file} does not load`);
    const bench = createWorkbench(loaded.circuit);
    const trials = await Promise.all(Array.from({ length: EACH }, (_, i) => trial(bench, 1000 + i)));
    const misses = trials.filter(({ kept }) => !kept);
    expect(misses.map(({ story }) => story).join('\n\n')).toBe('');
  },
);
