/** `draw`, `table` and the advice of `check` on the command line. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { bench, person, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

const FAILED = ['fails H1 when key on, gear reverse', 'works H2 when key on, gear reverse'];

async function session(): Promise<string> {
  const file = join(at.folder, 's.kgs');
  await at.run(['new', REVERSING, '--session', file]);
  const ran = await at.run(['record', '--session', file, ...FAILED]);
  expect(ran.status, shown(ran)).toBe(0);
  return file;
}

test('when a circuit is drawn then it is on stdout, and nothing on stderr', async () => {
  const ran = await at.run(['draw', REVERSING, '--when', 'KEY on', 'gear reverse']);
  expect(ran.status, shown(ran)).toBe(0);
  expect(ran.stderr).toBe('');
  expect(ran.stdout).toContain('Controls: key on, gear reverse; the others at rest.');
  expect(ran.stdout).toMatch(/S1\.30 to S1\.15 .*CLOSED/);
});

test('when the terminal knows only ASCII then so does the drawing', async () => {
  const ran = await at.run(['draw', REVERSING], { env: { LANG: 'C' } });
  expect(ran.stdout, shown(ran)).toMatch(/^[\x20-\x7e\n]*$/);
});

test('when a session is drawn then what it suspects is marked in words, before, during and at the end', async () => {
  const file = await session();
  const marked = await at.run(['draw', '--session', file]);
  expect(marked.stdout, shown(marked)).toMatch(/^\? .*H1\.1 to H1\.31 .*<-- suspect \d+ %$/m);
  expect(marked.stdout).toMatch(/^- .*H2\.1 to H2\.31/m);
  await at.run(['record', '--session', file, 'key on', 'gear reverse', 'volts X3.1h 12.3']);
  const read = await at.run(['draw', '--session', file, 'H1']);
  expect(read.stdout, shown(read)).toMatch(/X3\.1h \[read 12\.3 V #\d+\] to X3\.1c/);
  const before = join(at.folder, 'b.kgs');
  await at.run(['new', REVERSING, '--session', before]);
  expect((await at.run(['draw', '--session', before])).stdout).not.toContain('suspect');
  await at.run([
    'record',
    '--session',
    file,
    'repair H1 new lamp 5 min',
    ...FAILED.map((line) => line.replace('fails', 'works')),
    'done',
  ]);
  const after = await at.run(['draw', '--session', file, 'H1']);
  expect(after.stdout, shown(after)).toMatch(/^[?!] .*H1\.1 to H1\.31 .*<-- (?:suspect|confirmed) 9\d %$/m);
});

test('when it is asked for in the conversation then it is shown there, whole or for one part', async () => {
  const asker = person(['', '', '', 'H1', 'key on, gear reverse', '', '', 'draw H1', 'draw', 'pause']);
  const ran = await at.run(['start', REVERSING], { asker });
  expect(ran.status, shown(ran)).toBe(0);
  expect(asker.left).toBe(0);
  const [one, all] = ran.stdout.split('(reversing-lamps)').slice(1);
  expect(one).toMatch(/suspect \d+ %/);
  expect(one).not.toContain('H2.1');
  expect(all).toContain('H2.1');
});

test('when it is wanted as SVG in a file then the file is new, and one that is there stays', async () => {
  const out = join(at.folder, 'r.svg');
  const ran = await at.run(['draw', REVERSING, '--format', 'svg', '--out', out]);
  expect(ran.status, shown(ran)).toBe(0);
  const svg = await readFile(out, 'utf8');
  expect(svg).toMatch(/^<\?xml .*\n<svg xmlns="http:\/\/www.w3.org\/2000\/svg" width="[\d.]+mm"/);
  const again = await at.run(['draw', REVERSING, '--out', out]);
  expect(again.status).toBe(2);
  expect(again.stderr).toContain('was left as it is');
  expect(await readFile(out, 'utf8')).toBe(svg);
});

test.each([
  ['no circuit', ['draw'], 'Which circuit?'],
  ['a part that is not there', ['draw', REVERSING, 'H9'], 'no part or wire "H9"'],
  ['an unknown control', ['draw', REVERSING, '--when', 'geer reverse'], 'id you mean gear?'],
  ['an unknown position', ['draw', REVERSING, '--when', 'gear up'], 'Its positions:'],
  ['an unknown format', ['draw', REVERSING, '--format', 'png'], 'no format "png"'],
  ['a table of an unknown point', ['table', REVERSING, '--at', 'H9.1'], 'no point "H9.1"'],
  ['a table with an unknown fault', ['table', REVERSING, '--fault', 'F7 melted'], 'no fault "F7 melted"'],
  ['a table in an unknown format', ['table', REVERSING, '--format', 'xls'], 'no format "xls"'],
])('when there is %s then status 2 and how to mend it', async (_title, argv, says) => {
  const ran = await at.run(argv);
  expect(ran.status, shown(ran)).toBe(2);
  expect(ran.stdout).toBe('');
  expect(ran.stderr).toContain(says);
});

describe('table', () => {
  test('when a fault is named then its figures are those of readings with the same fault', async () => {
    const [control, fault] = [
      ['--when', 'key on', 'gear reverse'],
      ['--fault', 'X3.1 resistance', '--severity', '2'],
    ];
    const csv = await at.run(['table', REVERSING, '--format', 'csv', '--at', 'H1', ...control, ...fault]);
    expect(csv.status, shown(csv)).toBe(0);
    const cells = csv.stdout
      .split('\r\n')
      .find((line) => line.startsWith('X3.1 resistance,H1.1,bat-'))!
      .split(',');
    const one = await at.run(['readings', REVERSING, '--red', 'H1.1', ...control, ...fault]);
    expect(one.stdout, shown(one)).toContain(`${cells[3]} V`);
    const healthy = csv.stdout
      .split('\r\n')
      .find((line) => line.startsWith('healthy,H1.1,bat-'))!
      .split(',');
    expect(Number(healthy[3])).toBeGreaterThan(Number(cells[3]) + 1);
  });

  test('when a part is named as fault then each of its faults has a sheet', async () => {
    const ran = await at.run(['table', REVERSING, '--at', 'H1', '--fault', 'F7', '--json']);
    const { sheets } = JSON.parse(ran.stdout) as { sheets: { fault?: string }[] };
    expect(sheets.map(({ fault }) => fault)).toEqual([
      undefined,
      'F7.1 resistance',
      'F7.1 short',
      'F7.2 resistance',
      'F7.2 short',
      'F7:link open',
      'F7:link wrong rating',
    ]);
  });
});

describe('check with advice', () => {
  test('when there is only advice then the file is in order, unless --strict', async () => {
    const ran = await at.run(['check', REVERSING]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toMatch(/:\d+:\d+: advice: wire W\d+ /);
    expect(ran.stdout).toMatch(/is in order; \d+ pieces? of advice/);
    expect((await at.run(['check', '--strict', REVERSING])).status).toBe(1);
    const json = JSON.parse((await at.run(['check', '--json', REVERSING])).stdout) as {
      ok: boolean;
      files: { found: { severity: string; code: string; line: number; mend: string }[] }[];
    };
    expect(json.ok).toBe(true);
    expect(json.files[0]!.found.map(({ code }) => code)).toContain('unfused-wire');
    for (const one of json.files[0]!.found)
      expect([one.severity, one.line > 1, one.mend !== '']).toEqual(['advice', true, true]);
  });
});
