/** The first questions, answered by people who do not read them to the end. */
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readJournal } from '../../src/files/journal.js';
import type { Event } from '../../src/session/events.js';
import { bench, person, REVERSING, shown, type Bench } from './bench.js';

let at: Bench;
beforeEach(async () => {
  at = await bench();
});
afterEach(() => at.remove());

async function answered(
  ...lines: string[]
): Promise<{ events: readonly Event[]; stdout: string; stderr: string }> {
  const journal = join(at.folder, 's.journal');
  const asker = person(['', '', '', ...lines, '^C']);
  const ran = await at.run(['start', REVERSING, '--session', journal], { asker });
  expect(asker.left, shown(ran)).toBe(0);
  return {
    events: (await readJournal(journal)).recorded.map(({ event }) => event),
    stdout: ran.stdout,
    stderr: ran.stderr,
  };
}

describe('what fails and what works', () => {
  test('when the answer is no load then it is refused before a condition is asked', async () => {
    const { events, stderr } = await answered('11,9', 'H1', 'gear reverse');
    expect(events.map((event) => event.type)).toEqual(['opened', 'found']);
    expect(stderr).not.toMatch(/no control "11/);
  });

  test('when nothing was taken yet then the same is asked again, and what else only after an answer', async () => {
    const journal = join(at.folder, 'asked.journal');
    const asker = person(['', '', '', '11,9', 'H1', 'gear reverse', '^C']);
    await at.run(['start', REVERSING, '--session', journal], { asker });
    const asked = asker.questions.filter((text) => /fails\?/.test(text));
    expect(asked.map((text) => text.split('?')[0])).toEqual(['What fails', 'What fails', 'What else fails']);
  });

  test('when a whole line is typed then it counts as that line', async () => {
    const { events } = await answered('note tow bar fitted', 'H1 dim when key on, gear reverse', 'undo');
    expect(events).toMatchObject([
      { type: 'opened' },
      { type: 'noted', text: 'tow bar fitted' },
      { type: 'found', reading: { kind: 'load', load: 'H1', value: 'dim' } },
      { type: 'undone', number: 3 },
    ]);
  });

  test('when the verb is typed as well then it is not taken twice', async () => {
    const { events } = await answered('fails H1', 'key on, gear reverse');
    expect(events.at(-1)).toMatchObject({
      type: 'found',
      when: [
        ['key', 'on'],
        ['gear', 'reverse'],
      ],
    });
  });

  test('when a question is asked early then it is answered, and the questions go on', async () => {
    const { stdout } = await answered('why F7');
    expect(stdout).toContain('F7 (fuse reversing lamps)');
    expect(stdout).toContain('possible: blown: F7');
  });
});
