/** The built program with worker threads: what is said, and in which order, does not depend on how many there are. */
import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { REVERSING } from '../bench.js';

const PROGRAM = fileURLToPath(new URL('../../../bin/knowngood.js', import.meta.url));
const SMALL = fileURLToPath(new URL('../../published/circuits/lamp-and-resistor.yaml', import.meta.url));

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'knowngood-'));
  const write = (name: string, circuit: string, steps: string, expected: string): Promise<void> =>
    writeFile(
      join(folder, name),
      `session: 1\ntitle: demo\ncircuit: ${circuit}\nsteps:\n  - ${steps}\nexpect: {${expected}}\n`,
    );
  await write('1.yaml', SMALL, 'fails H1', 'fits: true');
  await write('2.yaml', SMALL, 'note nothing yet', 'fits: true');
  await write('3.yaml', REVERSING, 'fails H9', 'fits: true');
  await write('4.yaml', SMALL, 'note nothing yet', 'fits: false');
  await write('5.yaml', REVERSING, 'note nothing yet', 'verified: true');
});
afterAll(() => rm(folder, { recursive: true, force: true }));

function replayed(jobs: number, format: string): Promise<{ status: number; stdout: string; stderr: string }> {
  return new Promise((resolve) => {
    const argv = [PROGRAM, 'replay', '--jobs', String(jobs), '--format', format, '.'];
    execFile(process.execPath, argv, { cwd: folder }, (error, stdout, stderr) =>
      resolve({ status: Number(error?.code ?? 0), stdout, stderr }),
    );
  });
}

test('when sessions are shared among threads then the answer is that of one thread, byte for byte', async () => {
  const one = await replayed(1, 'text');
  const three = await replayed(3, 'text');
  expect(three).toEqual(one);
  expect(one.status).toBe(2);
  expect(one.stdout.match(/^\w.* \.\/\d\.yaml/gm)?.map((line) => line.slice(0, 10).trim())).toEqual([
    ...['holds', 'holds', 'could not', 'differs', 'differs'],
  ]);
  expect(one.stdout).toContain('2 hold, 2 differ, 1 could not run');
});
