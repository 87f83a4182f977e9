/**
 * Around the long runs: a folder for the results of their halves before, the tables after. `KNOWNGOOD_KEEP=FOLDER` keeps them there,
 * and goes on with what the folder has: for a run longer than the machine may be kept busy.
 */
import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { raceTables, type Raced } from '../bench/planning/race.js';
import { exerciseTables, type Done } from './exercises.js';
import { readKept } from './kept.js';
import { shelfTable, type Hunted } from './shelf.js';
import { tables } from './table.js';
import type { Result } from './trials.js';

declare module 'vitest' {
  export interface ProvidedContext {
    trialsFolder: string;
  }
}

export default function setup(project: TestProject): () => void {
  const kept = process.env['KNOWNGOOD_KEEP'];
  const folder = kept ?? mkdtempSync(join(tmpdir(), 'trials-'));
  mkdirSync(folder, { recursive: true });
  project.provide('trialsFolder', folder);
  return () => {
    const files = (name: string) =>
      readdirSync(folder)
        .filter((file) => file.startsWith(name))
        .map((file) => join(folder, file));
    const results = files('shard-').flatMap((file) => readKept<Result>(file));
    const exercises = files('exercises-').flatMap((file) => readKept<Done>(file));
    const hunted = files('shelf-').flatMap((file) => readKept<Hunted>(file));
    const raced = files('race-').flatMap((file) => readKept<Raced>(file));
    if (kept === undefined) rmSync(folder, { recursive: true });
    for (const { error, story } of results) {
      if (error !== undefined) console.log(`\nbroke down: ${error}`);
      if (story !== undefined) console.log(`\nmissed: ${story}`);
    }
    if (results.length > 0) console.log(`\n${tables(results)}\n`);
    if (exercises.length > 0) console.log(`\n${exerciseTables(exercises)}\n`);
    if (raced.length > 0) console.log(`\n${raceTables(raced)}\n`);
    if (hunted.length > 0) console.log(`\n${shelfTable(hunted)}\n`);
  };
}
