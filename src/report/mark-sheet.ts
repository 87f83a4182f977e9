/** Mark sheets on paper, as a table and as data: what happened to each journal, in the order of their names. */
import type { MarkItem } from '../exercise/exercise.js';
import type { Loss, Mark } from '../exercise/mark-data.js';
import { wrap } from './layout.js';
import { roadLines, unprovedLines } from './mark-road.js';

/** Raised when a field changes its meaning or goes away. */
export const MARK_SCHEMA = 1;

/** What the instructor changed, and why. */
export interface Override {
  readonly marks: number;
  readonly reason: string;
  readonly event: number | undefined;
}

export type Row =
  | {
      readonly file: string;
      readonly state: 'marked';
      readonly mark: Mark;
      readonly overrides: readonly Override[];
      /** After the overrides. */
      readonly total: number;
      readonly notes: readonly string[];
    }
  /** Not marked, and why. */
  | {
      readonly file: string;
      readonly state: 'tampered' | 'foreign' | 'damaged';
      readonly why: string;
      readonly student: string;
    };

export const MARK_FORMS = ['text', 'csv', 'json'] as const;
export type MarkForm = (typeof MARK_FORMS)[number];

const ITEMS: Readonly<Record<MarkItem, string>> = {
  found: 'fault found',
  choices: 'choice of tests',
  economy: 'minutes and money',
  parts: 'repairs on a guess',
  claims: 'claims proved',
  safety: 'safe work',
  verified: 'repair proved',
};
const NAMES = Object.keys(ITEMS) as MarkItem[];
const WIDTH = 80;

/** @param roads with each step of each student beside the best one */
export function printMarks(rows: readonly Row[], form: MarkForm, roads = false): string {
  switch (form) {
    case 'text':
      return `${[...rows.flatMap((row) => [...sheet(row, roads), '']), ...table(rows)].join('\n')}\n`;
    case 'csv':
      return csv(rows);
    case 'json':
      return `${JSON.stringify({ schema: MARK_SCHEMA, kind: 'knowngood marks', journals: rows }, null, 2)}\n`;
  }
}

export function sheet(row: Row, roads = false): readonly string[] {
  if (row.state !== 'marked')
    return [`NOT MARKED: ${row.file}`, ...wrap(`${row.state}: ${row.why}`, WIDTH, '  ', '  ')];
  const { mark } = row;
  return [
    `MARK SHEET: ${row.file}`,
    `  exercise ${mark.exercise}, attempt ${mark.attempt}${mark.student === '' ? '' : `, ${mark.student}`}`,
    ...markLines(mark),
    ...row.overrides.flatMap(({ marks, reason, event }) =>
      wrap(
        `instructor: ${marks > 0 ? '+' : ''}${marks}${event === undefined ? '' : ` (event #${event})`}: ${reason}`,
        WIDTH,
        '  ',
        '    ',
      ),
    ),
    ...(row.overrides.length > 0 ? [`  with that: ${row.total} of 100`] : []),
    ...row.notes.flatMap((note) => wrap(note, WIDTH, '  Note: ', '    ')),
    ...(roads ? [...roadLines('  Step by step:', mark.choices), ...unprovedLines(mark.losses)] : []),
  ];
}

/** The marks of one attempt, item by item, and what each lost mark was lost for. */
export function markLines(mark: Mark): readonly string[] {
  const { items, losses, budget, par } = mark;
  return [
    `  ${mark.total} of 100`,
    `  ${mark.minutes} min of ${budget.minutes}, money ${mark.money} of ${budget.money}; the planner took ${par.minutes} min`,
    ...wrap(`it was: ${mark.truth.join('; ')}`, WIDTH, '  ', '    '),
    ...(mark.closed ? [] : ['  The attempt was not closed.']),
    ...NAMES.flatMap((item) => [
      `  ${ITEMS[item].padEnd(18)} ${String(items[item].got).padStart(5)} of ${items[item].of}`,
      ...losses.filter((loss) => loss.item === item).flatMap((loss) => lossLines(loss)),
    ]),
  ];
}

function lossLines({ marks, event, why }: Loss): readonly string[] {
  const where = event === undefined ? '' : `#${event.number} ${event.words}: `;
  return wrap(`${where}${why}`, WIDTH, `     -${String(marks).padEnd(5)}`, '           ');
}

function table(rows: readonly Row[]): readonly string[] {
  const name = Math.max(7, ...rows.map(({ file }) => file.length));
  return [
    `${'journal'.padEnd(name)}  marks  attempt  minutes  student`,
    ...rows.map((row) =>
      row.state === 'marked'
        ? `${row.file.padEnd(name)}  ${String(row.total).padStart(5)}  ${String(row.mark.attempt).padStart(7)}  ${String(row.mark.minutes).padStart(7)}  ${row.mark.student}`
        : `${row.file.padEnd(name)}  ${row.state}`,
    ),
  ];
}

function csv(rows: readonly Row[]): string {
  const head = [
    ...['journal', 'state', 'student', 'exercise', 'attempt', 'total', 'override', 'reason'],
    ...NAMES,
    ...['minutes', 'money', 'planner minutes', 'cured', 'closed', 'lost'],
  ];
  const lines = rows.map((row) => {
    if (row.state !== 'marked') return [row.file, row.state, row.student, '', '', '', '', row.why];
    const { mark, overrides } = row;
    const lost = mark.losses.map(
      ({ item, marks, event, why }) =>
        `${item} -${marks}${event === undefined ? '' : ` #${event.number}`}: ${why}`,
    );
    return [
      ...[row.file, row.state, mark.student, mark.exercise, mark.attempt, row.total],
      overrides.length === 0 ? '' : overrides.reduce((sum, { marks }) => sum + marks, 0),
      overrides.map(({ reason }) => reason).join('; '),
      ...NAMES.map((item) => mark.items[item].got),
      ...[mark.minutes, mark.money, mark.par.minutes, mark.cured, mark.closed, lost.join('; ')],
    ];
  });
  return `${[head, ...lines].map((cells) => cells.map(cell).join(',')).join('\r\n')}\r\n`;
}

/** RFC 4180; a leading sign that a spreadsheet would take for a formula is set off. */
function cell(value: string | number | boolean): string {
  const text = String(value);
  const safe = typeof value === 'string' && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
