/** The drawing is corrected in mid-session: findings stay, are judged anew, and later runs stand on the corrected file. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readJournal } from '../../src/files/journal.js';
import { bench, person, REVERSING, shown, type Bench, type Ran } from './bench.js';

let at: Bench;
let session: string;
let text: string;
beforeEach(async () => {
  at = await bench();
  session = join(at.folder, 's.journal');
  text = await readFile(REVERSING, 'utf8');
});
afterEach(() => at.remove());

/** A session on a drawing of its own, with two findings. */
const begun = async (): Promise<void> => {
  await at.run(['new', await at.file('mine.yaml', text), '--session', session]);
  await at.run(['record', '--session', session, 'key on, gear reverse', 'fails H1', 'works H2']);
};
const draw = (from: RegExp, to: string): Promise<string> => at.file('mine.yaml', text.replace(from, to));
const redraw = (...words: string[]): Promise<Ran> =>
  at.run(['redraw', '--json', '--session', session, ...words]);
const last = async () => (await readJournal(session)).recorded.at(-1)!.event;

describe('redraw', () => {
  test('when the file was corrected then it is recorded with its words, and the findings stay', async () => {
    await begun();
    await draw(/title: .*/, 'title: Corrected');
    const ran = await redraw('ground', 'goes', 'elsewhere');
    expect(ran.status, shown(ran)).toBe(0);
    expect(await last()).toMatchObject({ type: 'redrawn', words: 'ground goes elsewhere' });
    const report = JSON.parse((await at.run(['report', '--json', '--session', session])).stdout) as {
      circuit: { title: string };
      steps: readonly unknown[];
    };
    expect(report.circuit.title).toBe('Corrected');
    expect(report.steps).toHaveLength(4);
  });

  test('when the corrected file was recorded then resuming and replaying say nothing of a change', async () => {
    await begun();
    await draw(/title: .*/, 'title: Corrected');
    expect((await at.run(['suspects', '--session', session])).stderr).toContain('has changed');
    await redraw('title');
    expect((await at.run(['suspects', '--session', session])).stderr).not.toContain('has changed');
    expect((await at.run(['replay', session])).status).toBe(0);
  });

  test('when the earlier file is put back then that is one more correction, not an undo', async () => {
    await begun();
    await draw(/title: .*/, 'title: Corrected');
    await redraw('title');
    const undone = await at.run(['undo', '--session', session]);
    expect(undone.status, shown(undone)).toBe(2);
    expect(undone.stderr).toContain('then: redraw');
    await at.file('mine.yaml', text);
    expect((await redraw('it was right')).status).toBe(0);
  });

  test('when the file is as before then it is refused', async () => {
    await begun();
    const ran = await redraw();
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('the same as before');
  });

  test('when the new drawing lacks what the record speaks of then both are named and nothing is recorded', async () => {
    await begun();
    const asker = person(['redraw lamp renamed', 'pause']);
    const at2 = await at.run(['resume', session], { asker });
    expect(at2.stderr).toContain('the same as before');
    await draw(/\bH1\b/g, 'H5');
    const ran = await redraw();
    expect(ran.status, shown(ran)).toBe(2);
    expect(ran.stderr).toContain('H1');
    expect(await last()).toMatchObject({ type: 'paused' });
  });

  test('when it is typed in the conversation then suspects are judged by the new drawing at once', async () => {
    await begun();
    const corrected = text.replace(/title: .*/, 'title: Corrected');
    const asker = person(['redraw the title', 'report', 'pause']);
    const ask = asker.ask.bind(asker);
    const changing = {
      ...asker,
      ask: async (message: string) => {
        await at.file('mine.yaml', corrected);
        return ask(message);
      },
    };
    const ran = await at.run(['resume', session], { asker: changing });
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('Corrected');
    expect(ran.stderr).toContain('drawing corrected: the title');
  });
});
