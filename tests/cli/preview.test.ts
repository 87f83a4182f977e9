/** A person who prefers another test asks what it would bring; nothing is recorded by it. */
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { readJournal } from '../../src/files/journal.js';
import { bench, person, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
let journal: string;
beforeEach(async () => {
  at = await bench();
  journal = join(at.folder, 's.journal');
  await at.run(['new', REVERSING, '--session', journal]);
  await at.run(['record', '--session', journal, 'fails H1 when key on, gear reverse']);
  await at.run(['record', '--session', journal, 'works H2 when key on, gear reverse']);
});
afterEach(() => at.remove());

const count = async (): Promise<number> => (await readJournal(journal)).recorded.length;

test('when a line ends in a question mark then its outcomes are shown and nothing is recorded', async () => {
  const before = await count();
  const asker = person(['volts X3.1h ?', 'H2 ?', 'volts Q9 ?', 'pause']);
  const ran = await at.run(['resume', journal], { asker });
  const said = `${ran.stdout} ${ran.stderr}`.replace(/\s+/g, ' ');
  expect(said, shown(ran)).toContain('Not recorded, only looked at: volts X3.1h');
  expect(said).toMatch(/leaves [^;]*; speaks against /);
  expect(said).toMatch(/min to the right repair/);
  expect(said).toContain('It would tell none of the suspects apart.');
  expect(said).toContain('This circuit has no point "Q9"');
  expect((await readJournal(journal)).recorded.filter(({ event }) => event.type === 'found').length).toBe(2);
  expect(await count()).toBeLessThanOrEqual(before + 1);
});

test('when next names a test then that is shown, and as JSON too', async () => {
  const ran = await at.run(['next', '--session', journal, 'volts', 'X3.1h']);
  expect(ran.status, shown(ran)).toBe(0);
  expect(ran.stdout).toContain('first: ');
  const json = await at.run(['next', '--session', journal, '--json', 'volts', 'X3.1h']);
  const { preview } = JSON.parse(json.stdout) as { preview: { line: string; outcomes: unknown[] } };
  expect(preview.line).toBe('volts X3.1h');
  expect(preview.outcomes.length).toBeGreaterThan(1);
});

test('when next names no test then the mistake is told with a way out', async () => {
  const ran = await at.run(['next', '--session', journal, 'why', 'F7']);
  expect(ran.status).toBe(2);
  expect(ran.stderr).toContain('This is no test');
});

test('when the suggested tests are listed then each other one says how much farther the repair is by it', async () => {
  const ran = await at.run(['next', '--session', journal]);
  const text = ran.stdout.replace(/\s+/g, ' ');
  expect(text).toMatch(
    /Suggested test: .*This way about [\d.]+ min to the right repair, the test included\./,
  );
  expect(text).toMatch(/Or: .*(min more than by the suggested test|as good as the suggested test)/);
});
