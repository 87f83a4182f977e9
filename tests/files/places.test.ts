/** The default folder by platform, and the list of what is in it. */
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { listSessions, newSessionFile, sessionFolder } from '../../src/files/places.js';

const unix = { platform: 'linux', env: {}, home: '/home/demo' };
const windows = { platform: 'win32', env: {}, home: 'C:\\Users\\demo' };

test.each([
  ['Linux', unix, '/home/demo/.local/state/knowngood'],
  ['Linux with XDG_STATE_HOME', { ...unix, env: { XDG_STATE_HOME: '/var/demo' } }, '/var/demo/knowngood'],
  // XDG Base Directory Specification 0.8: a relative path is invalid and is ignored.
  [
    'Linux with a relative XDG_STATE_HOME',
    { ...unix, env: { XDG_STATE_HOME: 'demo' } },
    '/home/demo/.local/state/knowngood',
  ],
  ['macOS', { ...unix, platform: 'darwin' }, '/home/demo/Library/Application Support/knowngood'],
  ['Windows', windows, 'C:\\Users\\demo\\AppData\\Local\\knowngood'],
  ['Windows with LOCALAPPDATA', { ...windows, env: { LOCALAPPDATA: 'D:\\Local' } }, 'D:\\Local\\knowngood'],
])('when the platform is %s then sessions have their usual folder', (_, surroundings, folder) => {
  expect(sessionFolder(surroundings)).toBe(folder);
});

test('when a session is new then its file name holds the time and the circuit in signs every system takes', () => {
  const name = newSessionFile(unix, 'stop/tail: 1', '2024-05-06T10:11:12.345+02:00');
  expect(name).toBe('/home/demo/.local/state/knowngood/2024-05-06T101112p0200-stop-tail--1.journal');
});

test('when sessions are listed then only journals come, in order of name', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'knowngood-list-'));
  try {
    for (const name of ['b.journal', 'a.journal', 'a.journal.lock', 'notes.txt'])
      await writeFile(join(folder, name), '');
    await mkdir(join(folder, 'c.journal'));
    expect(await listSessions(folder)).toEqual([join(folder, 'a.journal'), join(folder, 'b.journal')]);
    expect(await listSessions(join(folder, 'nowhere'))).toEqual([]);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});
