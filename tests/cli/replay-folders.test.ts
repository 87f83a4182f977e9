/** Which sessions a replay takes, in which order and share, in which form; and what it says to nonsense. */
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { bench, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
const session = (expected: string): string =>
  `session: 1\ntitle: demo\ncircuit: ${REVERSING}\nsteps:\n  - key on\nexpect: {${expected}}\n`;

beforeAll(async () => {
  at = await bench();
  await mkdir(join(at.folder, 'all/deeper/.hidden'), { recursive: true });
  await mkdir(join(at.folder, 'none'));
  for (const [name, text] of [
    ['b.yaml', session('fits: true')],
    ['a.yml', session('fits: false')],
    ['deeper/c.yaml', `# A comment first.\n${session('fits: true')}`],
    ['deeper/.hidden/d.yaml', session('fits: false')],
    ['stop-tail.yaml', await readFile(REVERSING, 'utf8')],
    ['lesson.yaml', 'exercise: 1\ntitle: demo\n'],
    ['torn.journal', 'not a journal'],
    ['readme.txt', 'session: 1'],
  ] as const)
    await writeFile(join(at.folder, 'all', name), text);
});
afterAll(() => at.remove());

const heads = (text: string): string[] =>
  text.split('\n').filter((line) => /^(holds|differs|could not run) /.test(line));

describe('a folder', () => {
  test('when it is replayed then its sessions are taken by name, what is none is left out and counted', async () => {
    const ran = await at.run(['replay', 'all']);
    expect(ran.status, shown(ran)).toBe(2);
    expect(heads(ran.stdout)).toEqual([
      'differs       all/a.yml  demo',
      'holds         all/b.yaml  demo',
      'holds         all/deeper/c.yaml  demo',
      'could not run all/torn.journal',
    ]);
    expect(ran.stdout).toContain('2 hold, 1 differ, 1 could not run');
    expect(ran.stderr).toBe('2 YAML files are no session and left out\n');
  });

  test('when a file in it is named too then it is replayed once, where it was named first', async () => {
    const ran = await at.run(['replay', 'all/deeper/c.yaml', 'all/', './all/b.yaml']);
    expect(heads(ran.stdout).map((line) => line.slice(14))).toEqual([
      'all/deeper/c.yaml  demo',
      'all/a.yml  demo',
      'all/b.yaml  demo',
      'all/torn.journal',
    ]);
  });

  test('when it holds no session then it could not run', async () => {
    const ran = await at.run(['replay', 'none', 'all/b.yaml']);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('none holds no session');
    expect(ran.stdout).toContain('1 hold, 0 differ, 0 could not run');
  });

  test.each([
    ['a circuit', 'stop-tail.yaml', 'this is a circuit file, not a session'],
    ['an exercise', 'lesson.yaml', 'this is an exercise file, not a session'],
    ['nothing', 'gone.yaml', 'there is no such file'],
    ['a text', 'readme.txt', 'is not a session journal'],
  ])('when %s is named itself then it could not run, and why is said', async (_what, name, message) => {
    const ran = await at.run(['replay', `all/${name}`]);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stdout).toContain(message);
  });
});

describe('--shard', () => {
  test('when all shares are taken then each session is in exactly one of them', async () => {
    const shares = await Promise.all([1, 2, 3].map((n) => at.run(['replay', '--shard', `${n}/3`, 'all'])));
    const taken = shares.flatMap(({ stdout }) => heads(stdout));
    expect([...taken].sort()).toEqual(heads((await at.run(['replay', 'all'])).stdout).sort());
    expect(shares[0]!.stdout).toContain('(share 1 of 3, 4 in all)');
  });

  test('when a share is empty then it holds', async () => {
    const ran = await at.run(['replay', '--shard', '9/9', '--format', 'tap', 'all/b.yaml']);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('1..0 # SKIP');
  });
});

describe('the forms', () => {
  test('when --json or --format json is given then one object has the same totals and what was left out', async () => {
    const [short, long] = [
      await at.run(['replay', '--json', 'all']),
      await at.run(['replay', '--format', 'json', 'all']),
    ];
    expect(short.stdout).toBe(long.stdout);
    const answer = JSON.parse(short.stdout);
    expect(answer).toMatchObject({
      schema: 1,
      kind: 'knowngood replay',
      holds: 2,
      differs: 1,
      failed: 1,
      skipped: ['all/lesson.yaml', 'all/stop-tail.yaml'],
    });
    expect(answer.sessions[0]).toMatchObject({
      file: 'all/a.yml',
      outcome: 'differs',
      circuit: 'reversing-lamps',
      lines: ['fits should be false; it is true'],
    });
  });

  test('when --output names a file then the form is there and the text on stdout', async () => {
    const ran = await at.run(['replay', '--format', 'junit', '--output', 'report.xml', 'all']);
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stdout).toContain('2 hold, 1 differ, 1 could not run');
    const direct = await at.run(['replay', '--format', 'junit', 'all']);
    expect(await readFile(join(at.folder, 'report.xml'), 'utf8')).toBe(direct.stdout);
  });

  test('when the same is replayed twice then every form has the same bytes', async () => {
    for (const format of ['text', 'json', 'junit', 'tap']) {
      const [one, two] = [
        await at.run(['replay', '--format', format, 'all']),
        await at.run(['replay', '--format', format, 'all']),
      ];
      expect(one.stdout, format).toBe(two.stdout);
      expect(one.stdout, format).not.toBe('');
    }
  });
});

test.each([
  [['--format', 'xml'], 'There is no format "xml"'],
  [['--json', '--format', 'tap'], '--json and --format tap exclude each other'],
  [['--jobs', '0'], '"0" is no number of threads'],
  [['--jobs', 'many'], '"many" is no number of threads'],
  [['--shard', '3'], '"3" is no share of the sessions'],
  [['--shard', '5/4'], 'there is no share 5 of 4'],
  [['--shard', '0/4'], 'there is no share 0 of 4'],
  [['--before', 'nowhere'], '--before nowhere: there is no such folder'],
  [['--circuits', 'all/b.yaml'], '--circuits all/b.yaml: there is no such folder'],
  [[''], 'a name is empty'],
  [['--output', 'no/such/folder/x.xml'], 'no/such/folder/x.xml could not be written (ENOENT)'],
])('when replay is given %j then it could not run, and what is wrong is said', async (flags, message) => {
  const ran = await at.run(['replay', ...flags, 'all/b.yaml']);
  expect(ran.status, shown(ran)).toBe(2);
  expect(ran.stderr).toContain(message);
});
