/** Around the long runs: a folder for the shards' results before, the tables after. */
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { tables } from './table.js';
import type { Result } from './trials.js';

declare module 'vitest' {
  export interface ProvidedContext {
    trialsFolder: string;
  }
}

export default function setup(project: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'trials-'));
  project.provide('trialsFolder', folder);
  return () => {
    const results = readdirSync(folder).flatMap((file) =>
      readFileSync(join(folder, file), 'utf8')
        .split('\n')
        .filter((line) => line !== '')
        .map((line) => JSON.parse(line) as Result),
    );
    rmSync(folder, { recursive: true });
    if (results.length === 0) return;
    for (const { error, story } of results) {
      if (error !== undefined) console.log(`\nbroke down: ${error}`);
      if (story !== undefined) console.log(`\nmissed: ${story}`);
    }
    console.log(`\n${tables(results)}\n`);
  };
}
