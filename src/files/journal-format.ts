/**
 * The lines of a journal file.
 *
 *     HASH {"knowngood":"journal","version":1}
 *     HASH {"number":1,"at":"2024-05-06T10:00:00Z","event":{...}}
 *     HASH {"number":2,"at":"2024-05-06T10:20:00Z","event":{...},"judged":{...}}
 *
 * HASH is the SHA-256, in hexadecimal, of the HASH of the line before (64 zeros before the first), a line feed and the
 * JSON of this line. So a line that is changed, taken out, put in or moved shows, and the last HASH names the whole session.
 */
import { createHash } from 'node:crypto';
import type { Recorded } from '../session/events.js';
import { isJudgement } from '../session/judgement.js';
import { isEvent } from './event-check.js';

export const VERSION = 1;
const START = '0'.repeat(64);
const HASH_BYTES = 64;
const LINE_FEED = 0x0a;
/** A page that never reached the disk reads as NULs; a single NUL is a changed byte. */
const LOST_PAGE = 16;

/** What was mended, or would be by opening the journal for writing. */
export interface Repair {
  /** `cut`: an incomplete last record was left behind by a crash. `line end`: a whole last record had lost its line end. */
  readonly kind: 'cut' | 'line end';
  /** Number the incomplete record would have had, or of the record that was kept. */
  readonly number: number;
  /** Byte offset in the file. */
  readonly offset: number;
  /** Bytes cut. */
  readonly bytes: number;
}

/** Where a journal is not what was written: `number` 0 is the header line. */
export interface Damage {
  readonly problem: 'damaged' | 'not-a-journal' | 'not-begun' | 'future-version';
  readonly number: number;
  readonly offset: number;
  readonly version?: unknown;
}

export interface Contents {
  readonly recorded: readonly Recorded[];
  /** HASH of the last good line. */
  readonly hash: string;
  readonly repairs: readonly Repair[];
  /** Bytes up to the end of the last good JSON, with its line feed when that is there. */
  readonly length: number;
  /** The last good line lacks its line feed. */
  readonly lineEndLost: boolean;
}

/** The header line and its HASH. */
export function header(version = VERSION): { readonly line: Uint8Array; readonly hash: string } {
  return seal(START, { knowngood: 'journal', version });
}

/** The line of one record, and its HASH. */
export function recordLine(
  before: string,
  record: Recorded,
): { readonly line: Uint8Array; readonly hash: string } {
  const { number, at, event, judged } = record;
  return seal(before, { number, at, event, ...(judged === undefined ? {} : { judged }) });
}

/** Reads the bytes of a journal. Cuts nothing off itself: `length` says what is good. Never throws on any bytes. */
export function readContents(bytes: Uint8Array): Contents | Damage {
  const first = lineAt(bytes, 0);
  const head = unseal(START, first.content);
  if (!head || !first.ended) return headerDamage(bytes, first.ended);
  const { knowngood, version } = head.value as { knowngood?: unknown; version?: unknown };
  if (knowngood !== 'journal') return { problem: 'not-a-journal', number: 0, offset: 0 };
  if (version !== VERSION) return { problem: 'future-version', number: 0, offset: 0, version };

  const recorded: Recorded[] = [];
  let { hash } = head;
  let offset = first.next;
  while (offset < bytes.length) {
    const { content, ended, next } = lineAt(bytes, offset);
    const number = recorded.length + 1;
    const found = unseal(hash, content);
    if (found && ended) {
      const record = asRecord(found.value, number);
      if (!record) return { problem: 'damaged', number, offset };
      recorded.push(record);
      hash = found.hash;
      offset = next;
      continue;
    }
    return tail(bytes, offset, number, { recorded, hash });
  }
  return { recorded, hash, repairs: [], length: offset, lineEndLost: false };
}

/** Everything from the first line that is not good: a torn last record, or damage. */
function tail(
  bytes: Uint8Array,
  offset: number,
  number: number,
  sofar: { readonly recorded: readonly Recorded[]; readonly hash: string },
): Contents | Damage {
  const rest = bytes.subarray(offset);
  const lineFeed = rest.indexOf(LINE_FEED);
  if (lineFeed >= 0 && !(lineFeed === rest.length - 1 && hasLostPage(rest))) {
    return { problem: 'damaged', number, offset };
  }
  // A whole record whose line feed was not written, was changed, or was lost with the page after it.
  let written = rest.length;
  while (written > 0 && rest[written - 1] === 0) written--;
  for (const end of [written, rest.length - 1]) {
    const found = unseal(sofar.hash, rest.subarray(0, end));
    const record = found && asRecord(found.value, number);
    if (!found || !record) continue;
    const length = offset + end;
    return {
      recorded: [...sofar.recorded, record],
      hash: found.hash,
      repairs: [{ kind: 'line end', number, offset: length, bytes: bytes.length - length }],
      length,
      lineEndLost: true,
    };
  }
  return {
    ...sofar,
    repairs: [{ kind: 'cut', number, offset, bytes: rest.length }],
    length: offset,
    lineEndLost: false,
  };
}

function headerDamage(bytes: Uint8Array, ended: boolean): Damage {
  const whole = header().line;
  const begun = !ended && bytes.every((byte, at) => at >= whole.length || byte === whole[at] || byte === 0);
  if (begun) return { problem: 'not-begun', number: 0, offset: 0 };
  const text = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  return { problem: beginsLikeJournal(text) ? 'damaged' : 'not-a-journal', number: 0, offset: 0 };
}

/** Whether a text begins as a journal does, damaged perhaps. @param head its first 200 characters, or more */
export function beginsLikeJournal(head: string): boolean {
  return /^.{64}.\{/s.test(head) && /knowngood|journal|version/.test(head.slice(0, 200));
}

function hasLostPage(bytes: Uint8Array): boolean {
  let run = 0;
  for (const byte of bytes) {
    run = byte === 0 ? run + 1 : 0;
    if (run >= LOST_PAGE) return true;
  }
  return false;
}

function lineAt(
  bytes: Uint8Array,
  offset: number,
): { readonly content: Uint8Array; readonly ended: boolean; readonly next: number } {
  const end = bytes.indexOf(LINE_FEED, offset);
  return end < 0
    ? { content: bytes.subarray(offset), ended: false, next: bytes.length }
    : { content: bytes.subarray(offset, end), ended: true, next: end + 1 };
}

function seal(before: string, value: unknown): { line: Uint8Array; hash: string } {
  const json = new TextEncoder().encode(JSON.stringify(value));
  const hash = hashOf(before, json);
  return { line: Buffer.concat([Buffer.from(`${hash} `), json, Buffer.from('\n')]), hash };
}

function unseal(before: string, content: Uint8Array): { value: unknown; hash: string } | undefined {
  if (content.length <= HASH_BYTES + 1 || content[HASH_BYTES] !== 0x20) return undefined;
  const hash = new TextDecoder('latin1').decode(content.subarray(0, HASH_BYTES));
  const json = content.subarray(HASH_BYTES + 1);
  if (hashOf(before, json) !== hash) return undefined;
  try {
    return { value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(json)) as unknown, hash };
  } catch {
    return undefined;
  }
}

function hashOf(before: string, json: Uint8Array): string {
  return createHash('sha256').update(`${before}\n`).update(json).digest('hex');
}

function asRecord(value: unknown, number: number): Recorded | undefined {
  const record = value as Partial<Recorded> | null;
  const good =
    record?.number === number &&
    typeof record.at === 'string' &&
    isEvent(record.event) &&
    (record.judged === undefined || isJudgement(record.judged));
  return good ? (record as Recorded) : undefined;
}
