/** A short session as a journal file in memory. */
import { createJournal } from '../../src/files/journal.js';
import { header, recordLine } from '../../src/files/journal-format.js';
import type { Event, Recorded } from '../../src/session/events.js';
import { MemoryFileSystem } from './memory-file-system.js';

export const PATH = '/sessions/a.journal';
export const AT = '2024-05-06T10:00:00Z';

export const EVENTS: readonly Event[] = [
  { type: 'opened', format: 1, program: 'knowngood 0.1.0', circuit: { id: 'a', hash: 'b', file: 'a.yaml' } },
  { type: 'did', action: { do: 'unplug', connector: 'X3' } },
  {
    type: 'found',
    reading: { kind: 'volts', red: 'X3.1h', black: 'bat-', value: { value: 11.4, step: 0.1 } },
  },
  { type: 'noted', text: 'grün, damp loom 漏' },
];

export const RECORDED: readonly Recorded[] = EVENTS.map((event, index) => ({
  number: index + 1,
  at: AT,
  event,
}));

/** The bytes the journal has after these events, and the offset just after each line. */
export function bytesOf(records: readonly Recorded[] = RECORDED): {
  readonly bytes: Uint8Array;
  readonly ends: readonly number[];
} {
  const first = header();
  const lines = [first.line];
  let { hash } = first;
  for (const record of records) {
    const next = recordLine(hash, record);
    lines.push(next.line);
    hash = next.hash;
  }
  let end = 0;
  return { bytes: new Uint8Array(Buffer.concat(lines)), ends: lines.map((line) => (end += line.length)) };
}

export function withFile(bytes: Uint8Array, path = PATH): MemoryFileSystem {
  const files = new MemoryFileSystem();
  files.files.set(path, new Uint8Array(bytes));
  files.durable.set(path, new Uint8Array(bytes));
  return files;
}

/** A journal with EVENTS in it, closed again. */
export async function recordedFiles(): Promise<MemoryFileSystem> {
  const files = new MemoryFileSystem();
  const journal = await createJournal(PATH, files);
  for (const event of EVENTS) await journal.append([event], AT);
  await journal.close();
  return files;
}
