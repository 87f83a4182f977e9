/** A program that records is killed without warning, again and again, and the same session goes on each time. */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import { openJournal } from '../../src/files/journal.js';

const child = fileURLToPath(new URL('append-child.js', import.meta.url));
const built = fileURLToPath(new URL('../../dist/files/journal.js', import.meta.url));

export interface Rounds {
  readonly acknowledged: number;
  /** Rounds that left half a record behind. */
  readonly torn: number;
  /** Rounds in which the program was killed before it had opened the journal. */
  readonly early: number;
}

/** Kills after 0 to 60 ms of recording, at times drawn from the seed. Fails at the first acknowledged record that is lost. */
export async function killRounds(rounds: number, seed: number): Promise<Rounds> {
  if (!existsSync(built)) throw new Error('the program is not built: run npm run build first');
  const folder = await mkdtemp(join(tmpdir(), 'knowngood-kill-'));
  const path = join(folder, 'session.journal');
  const random = generator(seed);
  let acknowledged = 0;
  let torn = 0;
  let early = 0;
  let safe = 0;
  try {
    for (let round = 0; round < rounds; round++) {
      // Every tenth is killed while it starts, when it may hold the lock and nothing else.
      const starting = round % 10 === 9;
      const said = await runAndKill(path, starting, random() * (starting ? 700 : 60));
      if (!said.open) early++;
      acknowledged += said.numbers.length;
      safe = Math.max(safe, ...said.numbers);
      if (!(await isThere(path))) {
        expect(safe).toBe(0);
        continue;
      }
      const { journal, recorded, repairs } = await openJournal(path);
      if (repairs.length > 0) torn++;
      expect(recorded.length, `round ${round}, seed ${seed}`).toBeGreaterThanOrEqual(safe);
      expect(recorded.map(({ number }) => number)).toEqual(recorded.map((_, index) => index + 1));
      const [mark] = await journal.append([{ type: 'noted', text: `after round ${round}` }], 'T');
      expect(mark!.number).toBe(recorded.length + 1);
      safe = mark!.number;
      await journal.close();
    }
    return { acknowledged, torn, early };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

function runAndKill(
  path: string,
  starting: boolean,
  milliseconds: number,
): Promise<{ readonly open: boolean; readonly numbers: readonly number[] }> {
  return new Promise((resolve, reject) => {
    const program = spawn(process.execPath, [child, path], { stdio: ['ignore', 'pipe', 'pipe'] });
    let out = '';
    let errors = '';
    let timer: NodeJS.Timeout | undefined;
    const kill = (): void => void (timer ??= setTimeout(() => program.kill('SIGKILL'), milliseconds));
    if (starting) kill();
    program.stdout.on('data', (data: Buffer) => {
      out += data.toString();
      kill();
    });
    program.stderr.on('data', (data: Buffer) => (errors += data.toString()));
    program.on('error', reject);
    program.on('close', () => {
      if (errors !== '') return reject(new Error(`the recording program failed:\n${errors}`));
      const lines = out.split('\n').slice(0, -1);
      resolve({ open: lines[0] === 'open', numbers: lines.slice(1).map(Number) });
    });
  });
}

function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}

/** Numbers from 0 to 1; mulberry32 (public domain, from memory). */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
