/** Replayed sessions as TAP version 14 (testanything.org), each that differs or could not be run with a YAML diagnostic. */
import { visible } from '../circuit/visible.js';
import type { Replay } from './replay-data.js';

/** The head with the plan: how many will follow. */
export function tapHead(count: number): string {
  return count === 0 ? 'TAP version 14\n1..0 # SKIP no sessions here' : `TAP version 14\n1..${count}`;
}

/** @param number 1 for the first */
export function tapLine(replay: Replay, number: number): string {
  const { file, title, outcome, lines, reasons, notes, accepted } = replay;
  const name = title === file ? file : `${file}: ${title}`;
  const head = `${outcome === 'holds' ? 'ok' : 'not ok'} ${number} - ${description(name)}`;
  const fields: (readonly [string, readonly string[]])[] = [
    ['differences', outcome === 'differs' ? lines : []],
    ['problems', outcome === 'could not run' ? lines : []],
    ['reasons', reasons],
    ['accepted', accepted],
    ['notes', notes],
  ];
  const told = fields.filter(([, list]) => list.length > 0);
  if (outcome === 'holds' && told.length === 0) return head;
  const severity = outcome === 'could not run' ? 'error' : outcome === 'differs' ? 'fail' : 'comment';
  return [
    head,
    '  ---',
    `  message: ${quoted(lines[0] ?? outcome)}`,
    `  severity: ${severity}`,
    `  outcome: ${quoted(outcome)}`,
    ...told.flatMap(([key, list]) => [`  ${key}:`, ...list.map((line) => `    - ${quoted(line)}`)]),
    '  ...',
  ].join('\n');
}

/** `#` begins a directive and `\` an escape: both are escaped; a description is one line. */
function description(text: string): string {
  return visible(text.replace(/\s+/g, ' ')).replace(/[\\#]/g, '\\$&');
}

/** A double-quoted YAML scalar: JSON's are, with what JSON leaves as it is escaped too. */
function quoted(text: string): string {
  return JSON.stringify(text).replace(/[\u007f-\u009f\p{Cf}\p{Zl}\p{Zp}]/gu, (sign) =>
    sign
      .split('')
      .map((half) => `\\u${half.charCodeAt(0).toString(16).padStart(4, '0')}`)
      .join(''),
  );
}
