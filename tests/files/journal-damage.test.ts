/** Whatever happens to the bytes of a journal: cut and said so, or refused by name; never taken as if nothing had happened. */
import { describe, expect, test } from 'vitest';
import { JournalError, openJournal, readJournal } from '../../src/files/journal.js';
import { header, recordLine } from '../../src/files/journal-format.js';
import { AT, bytesOf, PATH, RECORDED, recordedFiles, withFile } from './journal-sample.js';
import type { Event, Recorded } from '../../src/session/events.js';

const { bytes, ends } = bytesOf();

async function refusal(content: Uint8Array): Promise<JournalError> {
  const error = await readJournal(PATH, withFile(content)).then(
    () => undefined,
    (reason: unknown) => reason,
  );
  expect(error).toBeInstanceOf(JournalError);
  return error as JournalError;
}

test('when events are appended one by one then the file has the lines of the format', async () => {
  const files = await recordedFiles();
  expect(Buffer.from(files.files.get(PATH)!).toString()).toBe(Buffer.from(bytes).toString());
  expect((await readJournal(PATH, files)).recorded).toEqual(RECORDED);
});

test('when the file is cut at any byte then whole records stay, the rest is reported, and the session goes on', async () => {
  for (let length = 0; length < bytes.length; length++) {
    const content = bytes.slice(0, length);
    if (length < ends[0]!) {
      expect((await refusal(content)).code, `cut at ${length}`).toBe('not-begun');
      continue;
    }
    // A record whose line feed alone is missing is whole.
    const whole = ends.filter((end) => end - 1 <= length).length - 1;
    const files = withFile(content);
    const { journal, recorded, repairs } = await openJournal(PATH, files);
    expect(recorded, `cut at ${length}`).toEqual(RECORDED.slice(0, whole));
    const kind = ends.includes(length) ? [] : [ends.includes(length + 1) ? 'line end' : 'cut'];
    expect(
      repairs.map((repair) => repair.kind),
      `cut at ${length}`,
    ).toEqual(kind);
    await journal.append([{ type: 'paused' }], AT);
    await journal.close();
    const again = await readJournal(PATH, files);
    expect(again.repairs).toEqual([]);
    expect(again.recorded.map((record) => record.number)).toEqual(
      Array.from({ length: whole + 1 }, (_, index) => index + 1),
    );
  }
});

test('when any one bit of any byte is flipped then it is refused or reported, and no other record is ever read', async () => {
  for (let at = 0; at < bytes.length; at++) {
    for (let bit = 0; bit < 8; bit++) {
      const content = bytes.slice();
      content[at]! ^= 1 << bit;
      const line = ends.findIndex((end) => at < end);
      const result = await readJournal(PATH, withFile(content)).catch((error: unknown) => error);
      if (result instanceof JournalError) {
        expect(['damaged', 'not-a-journal'], `bit ${bit} of byte ${at}`).toContain(result.code);
        if (line > 0) expect(result.message).toContain(`record ${line} at byte ${ends[line - 1]} `);
        continue;
      }
      // Only the very last line feed can be told to be one: the record before it is whole.
      expect(at, `bit ${bit} of byte ${at}`).toBe(bytes.length - 1);
      expect(result).toMatchObject({ recorded: RECORDED, repairs: [{ kind: 'line end', number: 4 }] });
    }
  }
});

describe('when a crash leaves NULs', () => {
  test.each([1, 7, 16, 512, 5000])('at the end, %i of them, then they are cut', async (count) => {
    const files = withFile(Buffer.concat([bytes, Buffer.alloc(count)]));
    const { journal, recorded, repairs } = await openJournal(PATH, files);
    await journal.close();
    expect(recorded).toEqual(RECORDED);
    expect(repairs).toEqual([{ kind: 'cut', number: 5, offset: bytes.length, bytes: count }]);
    expect(files.files.get(PATH)).toEqual(new Uint8Array(bytes));
  });

  test('from inside the last record on, then that record is cut', async () => {
    const content = bytes.slice();
    content.fill(0, ends[3]! + 70);
    expect(await readJournal(PATH, withFile(content))).toMatchObject({
      recorded: RECORDED.slice(0, 3),
      repairs: [{ kind: 'cut', number: 4 }],
    });
  });

  test('as a lost page inside the last record, then that record is cut', async () => {
    const content = bytes.slice();
    content.fill(0, ends[3]! + 70, ends[3]! + 90);
    expect(await readJournal(PATH, withFile(content))).toMatchObject({
      recorded: RECORDED.slice(0, 3),
      repairs: [{ kind: 'cut', number: 4 }],
    });
  });

  test('as a lost page in the middle, then the record is named', async () => {
    const content = bytes.slice();
    content.fill(0, ends[1]! + 70, ends[1]! + 90);
    const error = await refusal(content);
    expect(error.message).toBe(`${PATH} is damaged: record 2 at byte ${ends[1]} is not as it was written`);
    expect(error.mend).toBe('restore a copy of the file; records 1 to 1 are sound');
  });
});

describe('when lines are', () => {
  const line = (index: number): Uint8Array => bytes.slice(ends[index - 1] ?? 0, ends[index]);
  test.each([
    ['taken out', [0, 1, 3, 4], 2],
    ['exchanged', [0, 1, 3, 2, 4], 2],
    ['written twice', [0, 1, 2, 2, 3, 4], 3],
  ])('%s then the record is named', async (_, order, record) => {
    const error = await refusal(Buffer.concat(order.map(line)));
    expect(error.code).toBe('damaged');
    expect(error.message).toContain(`record ${record} at byte`);
  });
});

test('when a line of another session with the same number is put in then the next line shows it', async () => {
  const other = bytesOf([
    RECORDED[0]!,
    { number: 2, at: AT, event: { type: 'did', action: { do: 'unplug', connector: 'X4' } } },
  ]);
  const swapped = Buffer.concat([
    bytes.slice(0, ends[1]),
    other.bytes.slice(other.ends[1], other.ends[2]),
    bytes.slice(ends[2]),
  ]);
  expect((await refusal(swapped)).message).toContain(`record 3 at byte ${other.ends[2]} `);
});

test('when the journal is of a later version then it is refused and left alone', async () => {
  const files = withFile(header(2).line);
  await expect(openJournal(PATH, files)).rejects.toMatchObject({
    code: 'future-version',
    message: `${PATH} is a journal of version 2; this program knows version 1`,
  });
  expect(files.files.get(PATH)).toEqual(new Uint8Array(header(2).line));
});

test.each(['hello\n', 'session: 1\ntitle: a\n', '{"a":1}\n'])(
  'when the file is %j then it is no journal',
  async (text) => {
    expect((await refusal(Buffer.from(text))).code).toBe('not-a-journal');
  },
);

test.each([
  ['an unknown type', { type: 'exploded' }],
  ['a reading without value', { type: 'found', reading: { kind: 'volts', red: 'a', black: 'b' } }],
  ['a number as text', { type: 'undone', number: '3' }],
  ['an entry too many', { type: 'closed', why: 'x' }],
])('when a sealed line holds %s then it is refused', async (_, event) => {
  const first = header();
  const forged = recordLine(first.hash, { number: 1, at: AT, event: event as unknown as Event });
  expect((await refusal(Buffer.concat([first.line, forged.line]))).code).toBe('damaged');
});

test('when a record has the wrong number then it is refused', async () => {
  const wrong: Recorded = { number: 2, at: AT, event: { type: 'paused' } };
  expect((await refusal(bytesOf([wrong]).bytes)).code).toBe('damaged');
});
