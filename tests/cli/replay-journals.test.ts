/** Journals replayed: compared with the conclusions recorded in them; a changed drawing, a damaged or foreign journal is named. */
import { copyFile, mkdir, readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { header, recordLine } from '../../src/files/journal-format.js';
import { readJournal } from '../../src/files/journal.js';
import { Benches } from '../../src/cli/replay/benches.js';
import { replayFile } from '../../src/cli/replay-session.js';
import type { Event, Recorded } from '../../src/session/events.js';
import type { Judgement } from '../../src/session/judgement.js';
import { bench, REVERSING, shown, type Bench } from './bench.js';
import { recordedSession, STEPS } from './replay-session-files.js';

let at: Bench;
beforeAll(async () => {
  at = await bench();
});
afterAll(() => at.remove());

/** A sound journal of these records. */
function journalOf(records: readonly Recorded[]): Buffer {
  const first = header();
  let { hash } = first;
  const lines = records.map((record) => {
    const sealed = recordLine(hash, record);
    hash = sealed.hash;
    return sealed.line;
  });
  return Buffer.concat([first.line, ...lines]);
}

const lastJudged = async (session: string): Promise<Judgement> =>
  (await readJournal(session)).recorded.findLast(({ judged }) => judged !== undefined)!.judged as Judgement;

describe('a journal that ended with done', () => {
  test('when nothing has changed then it holds, and its conclusions name what was proved', async () => {
    const { session } = await recordedSession(at, 'same', [...STEPS, 'done']);
    const ran = await at.run(['replay', session]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).not.toContain('note:');
    const judged = await lastJudged(session);
    expect(judged).toMatchObject({
      lead: ['X3'],
      fits: true,
      verified: false,
      program: expect.stringContaining('knowngood'),
    });
    expect(judged.suspects).toContain('X3.2 resistance');
    expect(judged.drawing.text).toBe(await readFile(REVERSING, 'utf8'));
  });

  test('when a value of its drawing is changed then the value, the finding and the earlier drawing are the reason', async () => {
    const kept = await recordedSession(at, 'changed', [...STEPS, 'done']);
    await kept.change('left reversing lamp, watts: 21 W', 'left reversing lamp, watts: 5 W');
    const ran = await at.run(['replay', kept.session]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toContain('the drawing was changed: parts H1 watts: 21 W then, 5 W now');
    expect(ran.stdout).toContain('by the earlier drawing it holds: the change makes the difference');
    expect(ran.stdout).toMatch(/severity of X3\.2 resistance: .* then, .* now/);
    expect(ran.stdout).toMatch(
      /note: the drawing reversing-lamps has changed since: SHA-256 [0-9a-f]{12} then, [0-9a-f]{12} now/,
    );
  });

  test('when only a comment of the drawing is changed then it holds, and the change is said', async () => {
    const kept = await recordedSession(at, 'comment', [...STEPS, 'done']);
    await kept.change('nominal: 12 V', 'nominal: 12 V # as printed on the battery');
    const ran = await at.run(['replay', kept.session]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('has changed since');
    expect((await at.run(['replay', '--strict', kept.session])).status).toBe(1);
  });

  test('when the program concludes otherwise by the same drawing then both programs are named', async () => {
    const { session } = await recordedSession(at, 'program', [...STEPS, 'done']);
    const { recorded } = await readJournal(session);
    const judged = { ...(await lastJudged(session)), program: 'knowngood 0.0.9', lead: ['H1'] };
    const other = await at.file('program2.journal', '');
    await writeFile(
      other,
      journalOf(recorded.map((one) => (one.judged === undefined ? one : { ...one, judged }))),
    );
    const ran = await at.run(['replay', other]);
    expect(ran.status, shown(ran)).toBe(1);
    expect(ran.stdout).toContain('leading: H1 then, X3 now');
    expect(ran.stdout).toMatch(
      /the drawing is the same: knowngood \S+ concludes otherwise than knowngood 0\.0\.9 did/,
    );
  });

  test('when its circuit file is elsewhere then it is found beside the journal, or in the folder that is named', async () => {
    const kept = await recordedSession(at, 'away', [...STEPS, 'done']);
    await mkdir(join(at.folder, 'moved/circuits'), { recursive: true });
    const moved = join(at.folder, 'moved/a.journal');
    await copyFile(kept.session, moved);
    await writeFile(kept.drawing, '');
    const text = await readFile(REVERSING, 'utf8');
    await writeFile(join(at.folder, 'moved/circuits/away.yaml'), text);
    expect((await at.run(['replay', '--circuits', 'moved/circuits', moved])).status).toBe(0);
    const { rm } = await import('node:fs/promises');
    await rm(kept.drawing);
    const missing = await at.run(['replay', moved]);
    expect(missing.status, shown(missing)).toBe(2);
    expect(missing.stdout).toContain('--circuits FOLDER');
    await writeFile(join(at.folder, 'moved/away.yaml'), text);
    expect((await at.run(['replay', moved])).status).toBe(0);
  });
});

describe('a journal without conclusions to compare with', () => {
  test('when it is of an older program then it holds by its events alone, and that is said', async () => {
    const { session } = await recordedSession(at, 'older', STEPS);
    const ran = await at.run(['replay', session]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('note: it holds no conclusions to compare with');
    expect(ran.stdout).toContain('it ends without done or pause: more may be missing');
  });

  test('when its conclusions are of a later program then they are kept and not compared', async () => {
    const { session } = await recordedSession(at, 'later', [...STEPS, 'done']);
    const { recorded } = await readJournal(session);
    const other = join(at.folder, 'later2.journal');
    const judged = { version: 2, verdicts: 'of another shape' };
    await writeFile(
      other,
      journalOf(recorded.map((one) => (one.judged === undefined ? one : { ...one, judged }))),
    );
    const ran = await at.run(['replay', other]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('are of a later program and were not compared');
  });

  test('when more was recorded after them then it is said how far they reach', async () => {
    const { session } = await recordedSession(at, 'after', [...STEPS, 'done']);
    await at.run(['record', '--session', session, 'H1 off']);
    const ran = await at.run(['replay', session]);
    expect(ran.status, shown(ran)).toBe(0);
    expect(ran.stdout).toContain('event 10 was recorded after them, and it ends without done or pause');
  });
});

describe('a journal that is not as it was written', () => {
  const AT = '2024-05-06T10:00:00Z';
  const opened = (id: string): Event => ({
    type: 'opened',
    format: 1,
    program: 'knowngood 0.1.0',
    circuit: { id, hash: 'ab', file: REVERSING },
  });
  const short = journalOf([
    { number: 1, at: AT, event: opened('reversing-lamps') },
    { number: 2, at: AT, event: { type: 'noted', text: 'grün' } },
    { number: 3, at: AT, event: { type: 'closed' } },
  ]);
  const outcome = async (content: Buffer): Promise<{ outcome: string; said: string }> => {
    const path = join(at.folder, 'mutated.journal');
    await writeFile(path, content);
    const one = await replayFile({ cwd: at.folder }, path, 'mutated.journal', new Benches());
    return { outcome: one.outcome, said: [...one.lines, ...one.notes].join('\n') };
  };

  test('when it is whole then it holds', async () => {
    expect((await outcome(short)).outcome).toBe('holds');
  });

  test('when any byte of it is changed then it is never accepted, and it is said where', async () => {
    for (let place = 0; place < short.length; place++) {
      const content = Buffer.from(short);
      content[place]! ^= 1 << (place % 8);
      const { outcome: one, said } = await outcome(content);
      expect(one, `byte ${place}`).toBe('could not run');
      expect(said, `byte ${place}`).toMatch(
        /is damaged: .* at byte \d+|is not a session journal|it is not whole/,
      );
    }
  });

  test('when it is cut off at any byte then that is said', async () => {
    for (let length = 0; length < short.length; length++) {
      const { outcome: one, said } = await outcome(short.subarray(0, length));
      // Cut between two records nothing is broken: only that the end is missing shows.
      if (one === 'holds')
        expect(said, `cut at ${length}`).toContain('it ends without done or pause: more may be missing');
      else {
        expect(one, `cut at ${length}`).toBe('could not run');
        expect(said, `cut at ${length}`).toMatch(
          /was never begun|it is not whole|does not say on which circuit/,
        );
      }
    }
  });

  test('when it is about another circuit then both are named', async () => {
    const { outcome: one, said } = await outcome(
      journalOf([{ number: 1, at: AT, event: opened('trailer') }]),
    );
    expect(one).toBe('could not run');
    expect(said).toContain('is the circuit reversing-lamps; the session is about trailer');
  });

  test('when it is of a later version then the version is named', async () => {
    const { outcome: one, said } = await outcome(Buffer.from(header(2).line));
    expect(one).toBe('could not run');
    expect(said).toContain('is a journal of version 2; this program knows version 1');
  });

  test('when its conclusions have no such shape then the record is named', async () => {
    const judged = { version: 1, suspects: 'all' } as unknown as Judgement;
    const content = journalOf([
      { number: 1, at: AT, event: opened('reversing-lamps') },
      { number: 2, at: AT, event: { type: 'closed' }, judged },
    ]);
    expect((await outcome(content)).said).toContain('is damaged: record 2');
  });
});
