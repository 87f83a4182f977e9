/** The classroom from the command line: sealed files, attempts, pauses, marks. */
import { readFile, writeFile, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { printMarks, type Row } from '../../src/report/mark-sheet.js';
import type { Event } from '../../src/session/events.js';
import { createJournal, readJournal } from '../../src/files/journal.js';
import { bench, person, shown, type Bench } from './bench.js';

const OWN = fileURLToPath(new URL('../../examples/course/04-dim-reversing-lamp.yaml', import.meta.url));
const KEY = 'four words of mine';
const WAY = [
  'H1 when key on, gear reverse',
  'H2 when key on, gear reverse',
  'key on',
  'gear reverse',
  'volts bat+',
  'predict low',
  'drop X3.1',
  'clean X3',
  'H1',
  'cause X3 pin 1 burnt',
  'done',
];

let at: Bench;
let sealed: string;
beforeAll(async () => {
  at = await bench();
  sealed = join(at.folder, 'students.yaml');
  const ran = await at.run(['exercise', 'seal', OWN, '--key', KEY, '--out', sealed]);
  expect(ran.status, shown(ran)).toBe(0);
  for (const folder of ['class', 'odd']) await mkdir(join(at.folder, folder));
}, 60_000);
afterAll(() => at.remove());

const start = (name: string, lines: readonly string[], more: readonly string[] = []) =>
  at.run(['exercise', 'start', sealed, '--session', join(at.folder, name), '--student', 'A', ...more], {
    stdin: lines.join('\n'),
  });
const marks = (folder: string, ...more: string[]) =>
  at.run(['mark', join(at.folder, folder), '--exercise', sealed, '--key', KEY, ...more]);

test('when an exercise is sealed then neither fault nor hints can be read in it, and the key opens it', async () => {
  const text = await readFile(sealed, 'utf8');
  // The ciphers behind `sealed:` are random letters, among which a short word may stand by chance.
  const [open, ciphers] = text.split(/^sealed:$/m);
  expect(ciphers).toMatch(/^\s+salt: /m);
  for (const word of ['X3', 'resistance', '6 ohm', 'megohm', 'poor contact'])
    expect(open).not.toContain(word);
  expect(text).toContain('only glows');
  const opened = await at.run(['exercise', 'open', sealed, '--key', KEY]);
  expect(opened.stdout).toContain('X3.1 resistance');
  const refused = await at.run(['exercise', 'open', sealed, '--key', 'five words of yours']);
  expect(refused.status).toBe(2);
  expect(refused.stderr).toContain('was not sealed with this key phrase');
});

test('when a sealed file has been changed then it is refused', async () => {
  const text = await readFile(sealed, 'utf8');
  const changed = join(at.folder, 'changed.yaml');
  expect(text).toContain('minutes: 30 min');
  await writeFile(changed, text.replace('minutes: 30 min', 'minutes: 95 min'));
  const ran = await at.run(['exercise', 'start', changed]);
  expect(ran.status).toBe(2);
  expect(ran.stderr).toContain('not as it was sealed');
});

test('when the phrase is too short or the file would be written over then nothing is written', async () => {
  const short = await at.run(['exercise', 'seal', OWN, '--key', 'abc']);
  expect(short.status).toBe(2);
  const twice = await at.run(['exercise', 'seal', OWN, '--key', KEY, '--out', sealed]);
  expect(twice.stderr).toContain('there is such a file already');
});

test('when an attempt is paused in the middle then it is gone on with on the same vehicle, and counts as the same', async () => {
  const paused = await start('odd/a.journal', WAY.slice(0, 7));
  expect(paused.status, shown(paused)).toBe(0);
  expect(paused.stderr).toContain('Paused');
  for (const command of ['suspects', 'next', 'report']) {
    const asked = await at.run([command, '--session', join(at.folder, 'odd/a.journal')]);
    expect(asked.stderr).toContain('attempt at the exercise');
  }
  const forged = await at.run(['record', 'H1 lit', '--session', join(at.folder, 'odd/a.journal')]);
  expect(forged.status).toBe(2);
  const rest = await at.run(['resume', join(at.folder, 'odd/a.journal')], { stdin: WAY.slice(7).join('\n') });
  expect(rest.status, shown(rest)).toBe(0);
  const whole = await start('class/anna.journal', WAY);
  expect(whole.stdout).toContain('anna.journal');
  const readings = async (file: string) =>
    (await readJournal(join(at.folder, file))).recorded.flatMap(({ event }) =>
      event.type === 'found' ? [event.reading.kind] : [],
    );
  expect(await readings('odd/a.journal')).toEqual(await readings('class/anna.journal'));
  // What the program concludes stands beside `done` and `pause` in other journals; here it would give the fault away.
  for (const file of ['odd/a.journal', 'class/anna.journal'])
    expect(await readFile(join(at.folder, file), 'utf8')).not.toContain('judged');
});

test('when a folder is marked then each journal has its marks or is named, the same bytes each time', async () => {
  await start('class/bert.journal', ['cause X4', 'new H1', 'done']);
  const good = await readFile(join(at.folder, 'class/anna.journal'), 'utf8');
  await writeFile(join(at.folder, 'class/cut.journal'), good.replace('"X3"', '"X4"'));
  await at.run(['new', 'reversing-lamps', '--session', join(at.folder, 'class/other.journal')]);
  const over = await at.file(
    'over.yaml',
    'overrides:\n  - {journal: bert.journal, marks: +5, event: 6, reason: lamp was dropped}\n',
  );
  const ran = await marks('class', '--overrides', over);
  expect(ran.status).toBe(1);
  expect(ran.stdout).toContain('instructor: +5 (event #6): lamp was dropped');
  expect(ran.stdout).toMatch(/MARK SHEET: anna.journal\n {2}exercise dim-reversing-lamp, attempt 1, A/);
  expect(ran.stdout).toContain('NOT MARKED: cut.journal\n  damaged: cut.journal is damaged: record');
  expect(ran.stdout).toContain('NOT MARKED: other.journal\n  foreign: this session is no attempt');
  expect((await marks('class', '--overrides', over)).stdout).toBe(ran.stdout);
});

test('when a reading was changed and the journal sealed anew then it is named as tampered', async () => {
  const { recorded } = await readJournal(join(at.folder, 'class/anna.journal'));
  const journal = await createJournal(join(at.folder, 'forged/anna.journal'));
  let changed = 0;
  for (const { event, at: time } of recorded) {
    const forged: Event =
      event.type === 'found' && event.reading.kind === 'volts'
        ? { ...event, reading: { ...event.reading, value: { value: 9.87, step: 0.01 } } }
        : event;
    if (forged !== event && changed === 0) changed = (await journal.append([forged], time))[0]!.number;
    else await journal.append([event], time);
  }
  await journal.close();
  const ran = await marks('forged');
  expect(ran.status).toBe(1);
  expect(ran.stdout.replace(/\s+/g, ' ')).toContain(`tampered: event ${changed} says "9.87 V`);
});

test('when a student named the journal otherwise then it is marked all the same, and what is no journal is named', async () => {
  await mkdir(join(at.folder, 'renamed'));
  await writeFile(
    join(at.folder, 'renamed', 'anna.session'),
    await readFile(join(at.folder, 'class', 'anna.journal')),
  );
  await writeFile(join(at.folder, 'renamed', 'notes.txt'), 'bring batteries');
  const ran = await marks('renamed');
  expect(ran.status, shown(ran)).toBe(0);
  expect(ran.stdout).toContain('MARK SHEET: anna.session');
  expect(ran.stderr).toContain('Left out, no journals: notes.txt');
});

test('when the marks are wanted as data then the attempts stand in the order of their files', async () => {
  const json = await marks('class', '--format', 'json');
  const { journals } = JSON.parse(json.stdout) as { journals: readonly Row[] };
  expect(journals.map(({ file }) => file)).toEqual([
    'anna.journal',
    'bert.journal',
    'cut.journal',
    'other.journal',
  ]);
  const [anna, bert] = journals as [Row, Row];
  expect('mark' in anna && anna.total).toBeGreaterThan(75);
  expect('mark' in bert && bert.total).toBeLessThan(25);
  expect('mark' in bert && bert.mark.attempt).toBe(2);
  const csv = printMarks(journals, 'csv').split('\r\n');
  expect(csv[0]).toMatch(/^journal,state,student,/);
  expect(csv[1]).toMatch(/^anna.journal,marked,A,dim-reversing-lamp,1,/);
});

test('when another exercise is marked, or no key is given, then it is said', async () => {
  const other = await at.run([
    'mark',
    join(at.folder, 'class'),
    '--exercise',
    OWN.replace('04-dim-reversing-lamp', '01-dead-stop-lamp'),
  ]);
  expect(other.stdout).toContain('foreign: it is an attempt at dim-reversing-lamp');
  const keyless = await at.run(['mark', join(at.folder, 'class'), '--exercise', sealed]);
  expect(keyless.status).toBe(2);
  expect(keyless.stderr).toContain('is sealed');
});

test('when a person practises then marks and both roads follow, and another one is offered', async () => {
  const asker = person(['H1', 'suspects', 'gibberish', 'done', 'yes', 'no']);
  const ran = await at.run(['practice', 'reversing-lamps', '--difficulty', '1', '--seed', '1'], { asker });
  expect(ran.status, shown(ran)).toBe(0);
  expect(ran.stderr).toContain('gives no such help');
  expect(ran.stdout).toContain('YOUR ROAD');
  expect(ran.stdout).toContain("THE PLANNER'S ROAD");
});
