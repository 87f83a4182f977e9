/** One writer at a time, on the real disk; a lock left by a crash does not keep anybody out. */
import { spawnSync } from 'node:child_process';
import { mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { createJournal, openJournal, readJournal } from '../../src/files/journal.js';
import { OWN } from '../../src/files/journal-lock.js';

let folder: string;
let path: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'knowngood-lock-'));
  path = join(folder, 'deeper', 'a.journal');
  const journal = await createJournal(path);
  await journal.append([{ type: 'noted', text: 'first' }], 'T');
  await journal.close();
});
afterEach(() => rm(folder, { recursive: true, force: true }));

const leaveLock = (text: string): Promise<void> => writeFile(`${path}.lock`, text);
const started = '2024-05-06T10:00:00.000Z';

/** Number of a process that has just ended. */
function deadProcess(): number {
  return spawnSync(process.execPath, ['-e', '0']).pid;
}

test('when a journal is open then it opens for nobody else, reads for anybody, and opens again once closed', async () => {
  const first = await openJournal(path);
  expect(JSON.parse(await readFile(`${path}.lock`, 'utf8'))).toEqual(OWN);
  await expect(openJournal(path)).rejects.toMatchObject({
    code: 'locked',
    message: `${path} is in use by process ${process.pid} on ${hostname()}, started ${OWN.started}`,
  });
  expect((await readJournal(path)).recorded).toHaveLength(1);
  await first.journal.close();
  await (await openJournal(path)).journal.close();
  expect(await readdir(join(folder, 'deeper'))).toEqual(['a.journal']);
});

test('when many open it at once then one gets it', async () => {
  await leaveLock(JSON.stringify({ pid: deadProcess(), host: hostname(), started }));
  const results = await Promise.allSettled(Array.from({ length: 8 }, () => openJournal(path)));
  const got = results.filter((result) => result.status === 'fulfilled');
  expect(got).toHaveLength(1);
  await got[0]!.value.journal.close();
  expect(await readdir(join(folder, 'deeper'))).toEqual(['a.journal']);
});

test('when another program died while it took a lock over then it is said what to delete, and nothing is opened', async () => {
  const left = JSON.stringify({ pid: deadProcess(), host: hostname(), started });
  await leaveLock(left);
  await writeFile(`${path}.lock.takeover`, '');
  await expect(openJournal(path)).rejects.toMatchObject({
    code: 'locked',
    mend: `try again; if no other program is at it, delete ${path}.lock.takeover`,
  });
  expect(await readFile(`${path}.lock`, 'utf8')).toBe(left);
});

test.each([
  [
    'a dead process of this computer',
    () => JSON.stringify({ pid: deadProcess(), host: hostname(), started }),
  ],
  [
    'this process number in an earlier life',
    () => JSON.stringify({ pid: process.pid, host: hostname(), started }),
  ],
  ['nobody: it is empty', () => ''],
  ['half a name', () => '{"pid": 12, "ho'],
])('when the lock names %s then it is taken over', async (_, text) => {
  await leaveLock(text());
  const { journal, recorded } = await openJournal(path);
  expect(recorded).toHaveLength(1);
  await journal.close();
  expect(await readdir(join(folder, 'deeper'))).toEqual(['a.journal']);
});

test('when the lock names a living process then it is kept', async () => {
  const text = JSON.stringify({ pid: process.ppid, host: hostname(), started });
  await leaveLock(text);
  await expect(openJournal(path)).rejects.toMatchObject({
    code: 'locked',
    mend: `close the session there first; if that process is not this program, delete ${path}.lock`,
  });
  expect(await readFile(`${path}.lock`, 'utf8')).toBe(text);
});

test('when the lock names another computer then it is kept and the message says how to mend it', async () => {
  await leaveLock(JSON.stringify({ pid: deadProcess(), host: 'another-bench', started }));
  await expect(openJournal(path)).rejects.toMatchObject({
    code: 'locked',
    message: expect.stringContaining('on another-bench, started 2024-05-06T10:00:00.000Z'),
    mend: `close the session on that computer; if it is not open there, delete ${path}.lock`,
  });
});

test('when the name is that of a folder then it is refused', async () => {
  await expect(openJournal(folder)).rejects.toMatchObject({ code: 'cannot-read' });
  await expect(createJournal(folder)).rejects.toMatchObject({ code: 'exists' });
});
