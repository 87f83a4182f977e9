/** Order of write, sync and acknowledgement; every call failing in turn; one writer at a time. */
import { describe, expect, test } from 'vitest';
import { createJournal, JournalError, openJournal, readJournal } from '../../src/files/journal.js';
import { readContents } from '../../src/files/journal-format.js';
import { AT, EVENTS, PATH, RECORDED, recordedFiles } from './journal-sample.js';
import { MemoryFileSystem } from './memory-file-system.js';

test('when an event is appended then it is written, synced, and only then acknowledged', async () => {
  const files = new MemoryFileSystem();
  const journal = await createJournal(PATH, files);
  expect(files.log).toEqual(['write 101', 'sync', 'sync folder']);
  files.log.length = 0;
  await journal.append([EVENTS[0]!], AT).then(() => files.log.push('acknowledged'));
  expect(files.log.map((call) => call.split(' ')[0])).toEqual(['write', 'sync', 'acknowledged']);
  expect(files.durable.get(PATH)).toEqual(files.files.get(PATH));
});

test('when several events are appended at once then each is one write and all are synced before the answer', async () => {
  const files = new MemoryFileSystem();
  const journal = await createJournal(PATH, files);
  files.log.length = 0;
  expect(await journal.append(EVENTS, AT)).toEqual(RECORDED);
  expect(files.log.map((call) => call.split(' ')[0])).toEqual(['write', 'write', 'write', 'write', 'sync']);
});

test('when appends overlap then they are recorded one after the other', async () => {
  const files = new MemoryFileSystem();
  const journal = await createJournal(PATH, files);
  const answers = await Promise.all(EVENTS.map((event) => journal.append([event], AT)));
  await journal.close();
  expect(answers.flat()).toEqual(RECORDED);
  expect((await readJournal(PATH, files)).recorded).toEqual(RECORDED);
});

test('when the system takes a few bytes at a time then every byte is written', async () => {
  const files = new MemoryFileSystem();
  files.mostBytes = 7;
  const journal = await createJournal(PATH, files);
  await journal.append(EVENTS, AT);
  expect(files.files.get(PATH)).toEqual((await recordedFiles()).files.get(PATH));
});

describe.each(['ENOSPC', 'EIO'])('when %s strikes', (code) => {
  // create: write, sync; then write, sync for each of four events.
  test.each(Array.from({ length: 10 }, (_, index) => index + 1))(
    'at call %i then nothing acknowledged is lost and nothing more is taken',
    async (failAt) => {
      for (const failAfter of [0, 40, 10_000]) {
        const files = new MemoryFileSystem();
        Object.assign(files, { failAt, failCode: code, failAfter });
        let acknowledged = 0;
        let failed: unknown;
        try {
          const journal = await createJournal(PATH, files);
          for (const event of EVENTS)
            acknowledged += (
              await journal.append([event], AT).catch(async (error) => {
                const calls = files.calls;
                await expect(journal.append([event], AT)).rejects.toBe(error);
                // Refused without touching the disk: a failed sync is never tried again.
                expect(files.calls).toBe(calls);
                await journal.close();
                throw error;
              })
            ).length;
        } catch (error) {
          failed = error;
        }
        expect(failed).toBeInstanceOf(JournalError);
        expect((failed as JournalError).code).toBe('cannot-write');
        if (failAt <= 2) {
          // Not even begun: the name is free again.
          expect(files.files.size).toBe(0);
          continue;
        }
        expect(acknowledged).toBe(Math.ceil(failAt / 2) - 2);
        expect((failed as JournalError).mend).toContain(`everything up to event ${acknowledged} is safe`);
        // After a loss of power.
        const left = readContents(files.durable.get(PATH)!);
        expect('recorded' in left && left.recorded).toEqual(RECORDED.slice(0, acknowledged));
        // Without one: the session goes on where it was acknowledged.
        files.failAt = 0;
        const again = await openJournal(PATH, files);
        expect(again.recorded).toEqual(RECORDED.slice(0, acknowledged));
        expect(await again.journal.append(EVENTS.slice(acknowledged), AT)).toEqual(
          RECORDED.slice(acknowledged),
        );
        await again.journal.close();
        expect((await readJournal(PATH, files)).recorded).toEqual(RECORDED);
      }
    },
  );

  test('at the taking back as well, then the next opening still finds every acknowledged record', async () => {
    const files = new MemoryFileSystem();
    const journal = await createJournal(PATH, files);
    await journal.append(EVENTS.slice(0, 2), AT);
    const sound = files.files.get(PATH)!.length;
    Object.assign(files, { failAt: files.calls + 1, failCode: code, failAfter: 50 });
    await expect(journal.append([EVENTS[2]!], AT)).rejects.toBeInstanceOf(JournalError);
    // As if the truncation had failed: half a record is left behind.
    files.files.set(PATH, Buffer.concat([files.files.get(PATH)!.slice(0, sound), Buffer.from('0123456789')]));
    await journal.close();
    const again = await openJournal(PATH, files);
    expect(again.recorded).toEqual(RECORDED.slice(0, 2));
    expect(again.repairs).toEqual([{ kind: 'cut', number: 3, offset: sound, bytes: 10 }]);
    await again.journal.close();
  });
});

test('when something that is no event is appended then nothing is written and the journal goes on', async () => {
  const files = new MemoryFileSystem();
  const journal = await createJournal(PATH, files);
  const before = files.files.get(PATH);
  await expect(journal.append([{ type: 'nonsense' } as never], AT)).rejects.toThrow(
    'no event of this format',
  );
  expect(files.files.get(PATH)).toBe(before);
  expect(await journal.append([EVENTS[0]!], AT)).toEqual(RECORDED.slice(0, 1));
});

test('when the journal is closed then it takes no more', async () => {
  const files = new MemoryFileSystem();
  const journal = await createJournal(PATH, files);
  await journal.close();
  await journal.close();
  await expect(journal.append([EVENTS[0]!], AT)).rejects.toMatchObject({ code: 'closed' });
});

test('when the file exists then a new session does not touch it', async () => {
  const files = await recordedFiles();
  const before = files.files.get(PATH);
  await expect(createJournal(PATH, files)).rejects.toMatchObject({ code: 'exists' });
  expect(files.files.get(PATH)).toBe(before);
  expect([...files.files.keys()]).toEqual([PATH]);
});

test('when there is no such file then that is said and no lock is left', async () => {
  const files = new MemoryFileSystem();
  await expect(openJournal(PATH, files)).rejects.toMatchObject({
    code: 'missing',
    message: `there is no session ${PATH}`,
  });
  expect(files.files.size).toBe(0);
});

test('when the same events are recorded then the hash is the same, and another when one differs', async () => {
  const hashes = await Promise.all(
    [EVENTS, EVENTS, EVENTS.slice(0, 3)].map(async (events) => {
      const journal = await createJournal(PATH, new MemoryFileSystem());
      await journal.append(events, AT);
      return journal.hash;
    }),
  );
  expect(hashes[0]).toMatch(/^[0-9a-f]{64}$/);
  expect(hashes[1]).toBe(hashes[0]);
  expect(hashes[2]).not.toBe(hashes[0]);
  expect((await readJournal(PATH, await recordedFiles())).hash).toBe(hashes[0]);
});
