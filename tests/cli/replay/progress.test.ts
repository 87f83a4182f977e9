/** The line of progress: only where somebody watches, wiped at the end, never between results on the same terminal. */
import { PassThrough } from 'node:stream';
import { expect, test } from 'vitest';
import type { Io } from '../../../src/cli/io.js';
import { Progress } from '../../../src/cli/replay/progress.js';

function watched(more: Partial<Pick<Io, 'env' | 'isTTY'>>): { io: Io; seen: () => string } {
  const stderr = new PassThrough();
  let clock = 0;
  const io = {
    env: {},
    isTTY: { stdin: true, stdout: true, stderr: true },
    now: () => new Date((clock += 1000)),
    stderr,
    ...more,
  } as unknown as Io;
  return { io, seen: () => String(stderr.read() ?? '') };
}

test('when a terminal watches then it sees how far it is, and nothing is left of it in the end', () => {
  const { io, seen } = watched({});
  const progress = new Progress(io, 3);
  progress.step(true);
  progress.step(false);
  expect(seen()).toBe('\r1 of 3\r2 of 3, 1 not as expected');
  progress.wipe();
  expect(seen()).toMatch(/^\r +\r$/);
});

test('when a result is printed on the same terminal then the line makes room and comes back', () => {
  const { io, seen } = watched({});
  const progress = new Progress(io, 3);
  progress.step(true);
  progress.around(() => void io.stderr.write('holds a.yaml\n'));
  expect(seen()).toBe('\r1 of 3\r      \rholds a.yaml\n\r1 of 3');
});

test.each([
  ['no terminal is there', { isTTY: { stdin: true, stdout: true, stderr: false } }],
  ['a build server runs it', { env: { CI: 'true' } }],
  ['the terminal cannot move back', { env: { TERM: 'dumb' } }],
])('when %s then nothing is written', (_why, more) => {
  const { io, seen } = watched(more);
  const progress = new Progress(io, 3);
  progress.step(true);
  progress.wipe();
  expect(seen()).toBe('');
});
